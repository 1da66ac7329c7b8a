"""The sheet of a whole part, with boxes that stay ticked: those of operations are what is done of the part."""

from __future__ import annotations

from hashlib import sha256

from starlette.responses import Response

from crib.app.opening import Crib
from crib.app.part import made
from crib.app.part.plan import PartReply
from crib.app.ticks import tick, ticked
from crib.findings.errors import CribError
from crib.render.html.part_sheet import key_of, part_fragment, part_sheet_html
from crib.render.html.setup_sheet import Fragment
from crib.web.call import Call
from crib.web.part import keep_ticks, reply_to
from crib.web.sheets import as_printed, with_style

_NO_PLAN = CribError("no-page", "nothing of this part has a plan, so there is no sheet", "",
                     "the part's page says what it lacks")


def sheet(call: Call) -> Response:
    """The sheet, with what is ticked off so far."""
    with call.open() as crib:
        reply = reply_to(call, crib, call.text("name"))
        done = _ticked(crib, reply)
    found = _fragment(reply, done)
    boxes = found.boxes
    page = call.page("part_sheet.html", name=reply.part.name, body=found.body, style=found.style,
                     before=" ".join(sorted(done)), count=len(done & {*boxes}), of=len(boxes))
    page.headers["content-security-policy"] = with_style(found.style)
    return page


def to_print(call: Call) -> Response:
    """The sheet by itself, as `crib part --sheet` writes it."""
    with call.open() as crib:
        reply = reply_to(call, crib, call.text("name"))
    page = part_sheet_html(reply.planned, reply.shop, None, reply.blank, reply.news, reply.cautions,
                        reply.squaring)
    if page is None:
        raise _NO_PLAN
    return as_printed(page)


def keep(call: Call) -> Response:
    """Keep what was ticked since the page was shown, and what was taken back; what others did meanwhile stays."""
    with call.open() as crib:
        reply = reply_to(call, crib, call.text("name"))
        before, now = set(call.text("before").split()), set(call.all("box"))
        keep_ticks(crib, reply, before, now)
        operations = {key_of(one.key) for one in reply.planned.operations}
        boxes = set(_fragment(reply, frozenset()).boxes) - operations
        tick(crib, _sheet_of(reply), {box: box in now for box in boxes if (box in before) != (box in now)})
        done = _ticked(crib, reply)
    if call.text("quietly"):
        return call.json({"ticked": sorted(done)})
    return call.go("/part/sheet", "", None, name=reply.part.name)


def _ticked(crib: Crib, reply: PartReply) -> frozenset[str]:
    """Every box that is ticked: the operations that are done, and the rest of the sheet."""
    done = {key_of(key) for key in made.state_of(crib, reply.part.name).keys}
    return ticked(crib, _sheet_of(reply)) | done


def _sheet_of(reply: PartReply) -> str:
    """The name under which a part's boxes are kept: their own names hold whenever it is planned again."""
    return sha256(f"part {reply.part.name}".encode()).hexdigest()[:16]


def _fragment(reply: PartReply, done: frozenset[str]) -> Fragment:
    """What stands in the page. Raises `CribError` where there is no plan."""
    found = part_fragment(reply.planned, reply.shop, done, reply.blank, reply.news, reply.cautions,
                        reply.squaring)
    if found is None:
        raise _NO_PLAN
    return found
