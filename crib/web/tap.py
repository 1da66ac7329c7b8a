"""Tap and drill, and naming what is unmarked: questions whose answer stands under their form."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from starlette.responses import Response

from crib.app.gauge import gauge as named
from crib.app.tap import tap as belonging
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.pages.blocks import Block, Paragraph
from crib.pages.gauge_page import gauge_page
from crib.pages.tap_page import tap_page
from crib.render.html import fragment
from crib.web.ask import units_of
from crib.web.call import Call

_Fields = tuple[tuple[str, str, str], ...]
_TAP: _Fields = (
    ("thread", "thread", "1/4-20, M6x1, 10-32"),
    ("depth", "depth", "of full thread; the thickness where it goes through"),
    ("through", "goes through", "yes, where it does"), ("below", "metal below", "under the full thread"),
    ("class_name", "class", "2B, 6H, or none"), ("material", "material", "what it is cut in"),
    ("drill", "drill", "the drill in hand, to be checked"), ("form", "form", "of the tap in hand: cutting or forming"),
    ("use", "use", "what the part is for"), ("mating", "mating", "what goes in it"),
)
_GAUGE: _Fields = (
    ("kind", "kind", "tap, drill, end-mill ..., where it is known"),
    ("diameter", "diameter", "across teeth, margins or full threads"), ("width", "width", "of the teeth of a disc"),
    ("pitch", "pitch", ".0312 or 0.8mm"), ("tpi", "threads per inch", "by the pitch gauge"),
    ("angle", "angle", "by the protractor, in degrees"),
)


def tap(call: Call) -> Response:
    """Whether tap and drill belong together, and how deep to go."""
    texts = _said(call, _TAP)
    try:
        blocks = _taps(call, texts) if texts else ""
    except CribError as error:
        return _page(call, "Tap and drill", _TAP, texts, failed=error.finding)
    return _page(call, "Tap and drill", _TAP, texts, blocks)


def _taps(call: Call, texts: dict[str, str]) -> str:
    if not texts.get("thread"):
        raise CribError("usage", "no thread is given", "", "the thread, such as 10-32")
    said: dict[str, Any] = {name: text for name, text in texts.items() if name != "thread"}
    said["through"] = texts.get("through", "no").lower() in ("yes", "y")
    with call.open() as crib:
        advice = belonging(crib, texts["thread"], **said)
        return fragment(tap_page(advice), crib.units)


def gauge(call: Call) -> Response:
    """What an unmarked cutter may be."""
    texts, units = _said(call, _GAUGE), units_of(call)
    measured = {name: text for name, text in texts.items() if name != "kind"}
    try:
        found = named(texts.get("kind"), **measured, units=units) if measured else None
    except CribError as error:
        return _page(call, "Name an unmarked cutter", _GAUGE, texts, failed=error.finding)
    shown: Sequence[Block] = [gauge_page(found)] if found else [Paragraph("nothing that is made fits: measure again")]
    return _page(call, "Name an unmarked cutter", _GAUGE, texts, fragment(shown, units) if measured else "")


def _said(call: Call, fields: _Fields) -> dict[str, str]:
    return {name: call.text(name) for name, _, _ in fields if call.text(name)}


def _page(call: Call, title: str, fields: _Fields, texts: dict[str, str], blocks: str = "",
          failed: Finding | None = None) -> Response:
    return call.page("tool.html", 400 if failed else 200, title=title, fields=fields, texts=texts, blocks=blocks,
                     failed=failed, needed="thread", button="Ask")
