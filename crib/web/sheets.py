"""The sheet of an answer, with boxes that stay ticked."""

from __future__ import annotations

import base64
import re
from hashlib import sha256
from urllib.parse import urlencode

from starlette.responses import HTMLResponse, Response

from crib.app.asking import Reply
from crib.app.ticks import sheet_of, tick, ticked
from crib.findings.errors import CribError
from crib.render.html.setup_sheet import sheet_fragment, sheet_html
from crib.web.ask import kind_of, reply_to, texts_of
from crib.web.call import Call
from crib.web.guard import POLICY

_NO_PLAN = CribError("no-page", "there is no plan, so there is no sheet", "", "the answer says what would do instead")


def sheet(call: Call) -> Response:
    """The sheet, with what is ticked off so far."""
    with call.open() as crib:
        reply = reply_to(call, crib, kind_of(call), texts_of(call))
        boxes = _boxes(reply)
        done = ticked(crib, sheet_of(reply, boxes))
    fragment = sheet_fragment(reply.found, ticked=done)
    if fragment is None:
        raise _NO_PLAN
    page = call.page("sheet.html", name=kind_of(call), query=urlencode(texts_of(call)), body=fragment.body,
                     style=fragment.style, before=" ".join(sorted(done)), count=len(done), of=len(boxes))
    page.headers["content-security-policy"] = with_style(fragment.style)
    return page


def to_print(call: Call) -> Response:
    """The sheet by itself, as `crib make --sheet` writes it."""
    with call.open() as crib:
        reply = reply_to(call, crib, kind_of(call), texts_of(call))
    page = sheet_html(reply.found)
    if page is None:
        raise _NO_PLAN
    return as_printed(page)


def keep(call: Call) -> Response:
    """Keep what was ticked since the page was shown, and what was taken back; what others did meanwhile stays."""
    with call.open() as crib:
        reply = reply_to(call, crib, kind_of(call), texts_of(call))
        boxes = _boxes(reply)
        before, now = set(call.text("before").split()), set(call.all("box"))
        touched = {box: box in now for box in boxes if (box in before) != (box in now)}
        done = tick(crib, sheet_of(reply, boxes), touched)
    if call.text("quietly"):
        return call.json({"ticked": sorted(done)})
    return call.go(f"/sheet/{kind_of(call)}", "", None, **texts_of(call))


def _boxes(reply: Reply) -> list[str]:
    """The keys of a sheet's boxes, in order."""
    fragment = sheet_fragment(reply.found)
    return fragment.boxes if fragment else []


def as_printed(page: str) -> Response:
    """A whole sheet by itself, allowed its own styles and no others."""
    styles = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
    return HTMLResponse(page, headers={"content-security-policy": with_style(*styles)})


def with_style(*styles: str) -> str:
    """The policy that lets these styles, and no others, stand in the page itself."""
    hashes = " ".join(f"'sha256-{base64.b64encode(sha256(style.encode()).digest()).decode()}'" for style in styles)
    return POLICY.replace("style-src 'self'", f"style-src 'self' {hashes}")
