"""The first page, what else there is, and how to get it onto a phone."""

from __future__ import annotations

from starlette.responses import Response

from crib.app.kinds import NAMES
from crib.web.call import Call

PAGE = "home.html"
"""The page that is opened first."""


def home(call: Call) -> Response:
    """What there is to do, and what there is in the crib."""
    counts = {}
    if call.bench.has_crib():
        with call.open() as crib:
            counts = crib.counts()
    return call.page(PAGE, counts=counts, kinds=NAMES)


def more(call: Call) -> Response:
    """What doesn't stand in the bar at the top."""
    return call.page("more.html")


def phone(call: Call) -> Response:
    """The address with its key, as a code to point a phone at."""
    from crib.web.code import drawn

    code = drawn(call.bench.entrance) if call.bench.key else ""
    return call.page("phone.html", code=code, address=call.bench.address)
