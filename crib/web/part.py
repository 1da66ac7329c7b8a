"""One part: how it is made whole, what of it is done, what was measured, and what it is."""

from __future__ import annotations

from typing import Any

from starlette.responses import Response

from crib.app import asked as past
from crib.app.opening import Crib
from crib.app.part import made, on_file
from crib.app.part.measured import meaning, read_measured, sizes_of
from crib.app.part.plan import Known, PartReply, plan
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.findings.verdicts import SHORT
from crib.pages.blocks import Block, Paragraph
from crib.pages.more import More
from crib.pages.part.page import left_out, part_page, verdict
from crib.parts.part import Face
from crib.render.html.page import fragment
from crib.render.html.part_sheet import key_of
from crib.render.json.findings import error_json
from crib.render.json.part import part_json
from crib.render.words import told, words
from crib.web.ask import SIGNS, units_of
from crib.web.bench import News
from crib.web.call import Call


def part(call: Call) -> Response:
    """How a part is made whole."""
    return page(call, call.text("name"))


def reply_to(call: Call, crib: Crib, name: str) -> PartReply:
    """The plan of a part: as it was a moment ago, where nothing was done to the crib since."""
    kept, counts = on_file.find(crib, name), crib.last_that_counts()
    key = (kept.name, crib.units, counts, crib.last_change())

    def anew() -> PartReply:
        with call.bench.planning:  # whoever waited for the same takes that answer
            known = call.bench.known.get(counts, Known)
            return call.bench.parts.get(key, lambda: plan(crib, kept.name, known=known))

    return call.bench.parts.get(key, anew)


def page(call: Call, name: str, failed: Finding | None = None) -> Response:
    """The page of a part; one that can't be planned is shown with what is wrong, and its text to put it right."""
    with call.open() as crib:
        kept, reply, fault = on_file.find(crib, name), None, None
        questions = past.listed(crib)[0][:40]
        try:
            reply = reply_to(call, crib, name)
        except CribError as error:
            fault = error.finding
        units = crib.units
    clash = failed is not None and failed.id == "changed"
    typed = call.typed if failed else {}
    shown = _shown(reply, units) if reply and reply.planned.operations else None
    unread = [told(one, units) for one in reply.part.unread] if reply else []
    return call.page("part.html", 409 if clash else 400 if failed else 200, name=kept.name, version=kept.version,
                     text=typed.get("text", kept.text), failed=failed, clash=clash, fault=fault, shown=shown,
                     faces=[one.value for one in Face], typed=typed, units=units, unread=unread,
                     questions=[(one.id, one.kind, ", ".join(one.texts.values())) for one in questions])


def _shown(reply: PartReply, units: str) -> dict[str, Any]:
    """The plan as a page has it."""
    planned, worst = reply.planned, verdict(reply.planned)
    blocks = [one for one in part_page(planned, (), reply.blank, reply.news, reply.cautions) if not _is_above(one)]
    why = part_page(planned, (More.WHY,))
    done = [key_of(one.key) for one in planned.operations if one.done]
    return {"answer": worst, "says": left_out(planned) or SHORT[worst], "sign": SIGNS[worst],
            "blocks": fragment(blocks, units), "operations": _operations(reply, units), "before": " ".join(done),
            "done": len(done), "of": len(planned.operations), "ran_out": reply.ran_out,
            "why": fragment(why[_until_why(why):], units, 500), "sizes": sizes_of(planned),
            "measured": [(words(meaning(reply.part, planned, one), units), one.is_outside)
                         for one in reply.state.measured]}


def _until_why(blocks: tuple[Block, ...]) -> int:
    """Where that begins which isn't on the first screen."""
    return next((at for at, one in enumerate(blocks) if type(one).__name__ == "Heading"), len(blocks))


def _is_above(one: Block) -> bool:
    """What stands at the top of the page already, or says by which options the rest is asked for."""
    return isinstance(one, Paragraph) and one.label in ("Answer", "More")


def _operations(reply: PartReply, units: str) -> list[dict[str, Any]]:
    from crib.pages.part.words import short_name, work_of
    from crib.pages.remarks import place

    planned = reply.planned
    return [{"no": one.no, "box": key_of(one.key), "done": one.done, "work": work_of(planned, one),
             "setup": one.setup_no, "cutter": words(short_name(planned, one.cutter), units), "number": one.cutter.id,
             "place": place(one.cutter), "minutes": one.minutes} for one in planned.operations]


def tick(call: Call) -> Response:
    """Keep what was ticked since the page was shown, and what was taken back; what others did meanwhile stays."""
    with call.open() as crib:
        name = on_file.find(crib, call.text("name")).name
        reply = reply_to(call, crib, name)
        keep_ticks(crib, reply, set(call.text("before").split()), set(call.all("box")))
        done = [key_of(key) for key in made.state_of(crib, name).keys]
    if call.text("quietly"):
        return call.json({"ticked": sorted(done)})
    return call.go("/part", "made", None, name=name)


def keep_ticks(crib: Crib, reply: PartReply, before: set[str], now: set[str]) -> None:
    """Tick off the operations whose boxes became ticked, and take back the ticks of others."""
    keys = {key_of(one.key): one.key for one in reply.planned.operations}
    made.tick(crib, reply.planned, [keys[box] for box in now - before if box in keys])
    made.tick(crib, reply.planned, [keys[box] for box in before - now if box in keys], is_done=False)


def measured(call: Call) -> Response:
    """Note what a size measures."""
    name = call.text("name")
    text = f"{call.text('size')} {call.text('reads')}".strip()
    try:
        with call.open() as crib:
            reply = reply_to(call, crib, name)
            one = read_measured(reply.planned, text, crib.units)
            made.measure(crib, reply.planned, [one])
            said = words(meaning(reply.part, reply.planned, one), crib.units)
    except CribError as error:
        return page(call, name, error.finding)
    return call.go("/part", "measured", News(f"part-{name}-measured", said), name=name)


def add(call: Call) -> Response:
    """Put a question that was asked before to the part, where it lies."""
    name = call.text("name")
    places = {key: call.text(key) for key in ("at", "face", "runs") if call.text(key)}
    named = {"name": call.text("called")} if call.text("called") else {}
    try:
        with call.open() as crib:
            on_file.add(crib, name, {**named, **on_file.asked_before(crib, call.number("question")), **places})
    except CribError as error:
        return page(call, name, error.finding)
    return call.go("/part", news=News(f"part-{name}-add", "Added."), name=name)


def document(call: Call) -> Response:
    """The plan as `crib part NAME --json` prints it."""
    try:
        with call.open() as crib:
            reply = reply_to(call, crib, call.text("name"))
    except CribError as error:
        return call.json({"error": error_json(error.finding, units_of(call))}, 400)
    return call.json(part_json(reply.planned, reply.shop.units, reply.sawn, reply.beside))
