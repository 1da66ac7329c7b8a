"""Questions whose answer stands under a small form: tap and drill, what is unmarked, what is worth buying, what to
measure, what is amiss, what is lent."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any
from urllib.parse import urlencode

from starlette.responses import Response

from crib.app import kinds as known
from crib.app import looking
from crib.findings.errors import CribError
from crib.pages.blocks import Block, Paragraph, table
from crib.render.html.page import fragment
from crib.render.words import told
from crib.web.ask import kind_of, texts_of, units_of
from crib.web.call import Call

_Fields = tuple[tuple[str, str, str], ...]
_Texts = dict[str, str]
_TAP: _Fields = (
    ("thread", "thread", "1/4-20, M6x1, 10-32"),
    ("depth", "depth", "of full thread; the thickness where it goes through"),
    ("through", "goes through", "yes, where it does"), ("below", "metal below", "under the full thread"),
    ("class_name", "class", "2B, 6H, or none"), ("material", "material", "what it is cut in"),
    ("drill", "drill", "the drill in hand, to be checked"), ("form", "form", "of the tap in hand: cutting or forming"),
    ("use", "use", "what the part is for"), ("mating", "mating", "what goes in it"),
)
_GAUGE: _Fields = (
    ("kind", "kind", "tap, drill, end-mill, screw, taper, dovetail ..., where it is known"),
    ("diameter", "diameter", "across teeth, margins or full threads; a taper's large end"),
    ("width", "width", "of the teeth of a disc"),
    ("pitch", "pitch", ".0312 or 0.8mm"), ("tpi", "threads per inch", "by the pitch gauge"),
    ("angle", "angle", "by the protractor, in degrees"),
    ("hole", "what enters", "the largest drill or plug that enters an inside thread, or a die"),
    ("small", "small end", "of a taper"), ("length", "length", "from a taper's one diameter to the other"),
    ("radius", "radius", "by the radius gauge"), ("pin", "pins", "laid in a dovetail, two sizes: 1/2,1/4"),
    ("over_pins", "over pins", "of a slide, a size for each pin"),
    ("between_pins", "between pins", "of a slot, a size for each pin"),
    ("opening", "opening", "a dovetail's width at the surface, with one pin and the height"),
    ("height", "height", "of a dovetail"),
)
_WORTH: _Fields = (
    ("price", "price", "of what would save most, its shipping behind a plus: 48+9"),
    ("shipping", "shipping", "what it costs to get it here"),
    ("uses", "uses", "how often it will be wanted, this time with them; else from what was asked"),
    ("wait", "wait", "days until it is here"), ("deadline", "deadline", "days that there are, or the day itself"),
    ("day_cost", "day cost", "what a day of waiting costs, the machine standing"),
    ("cutter", "cutter", "only this cutter, in shop words, of all that could be bought"),
)
_BUDGET: _Fields = (("budget", "budget", "the most that may be spent"),)
_MOST: _Fields = (("most", "how many", "cutters you would measure; else three"),)


def tap(call: Call) -> Response:
    """Whether tap and drill belong together, and how deep to go."""
    from crib.app.tap import tap as belonging
    from crib.pages.tap_page import tap_page

    def blocks(texts: _Texts) -> Sequence[Block]:
        if not texts.get("thread"):
            raise CribError("usage", "no thread is given", "", "the thread, such as 10-32")
        said: dict[str, Any] = {name: text for name, text in texts.items() if name != "thread"}
        said["through"] = texts.get("through", "no").lower() in ("yes", "y")
        with call.open() as crib:
            return tap_page(belonging(crib, texts["thread"], **said))

    return _page(call, "Tap and drill", _TAP, blocks, needed="thread")


def gauge(call: Call) -> Response:
    """What something unmarked may be."""
    from crib.app.gauge import gauge as named
    from crib.pages.gauge_page import gauge_page

    def blocks(texts: _Texts) -> Sequence[Block]:
        measured = {name: text for name, text in texts.items() if name != "kind"}
        return gauge_page(named(texts.get("kind"), units=units_of(call), **measured))

    return _page(call, "Name what isn't marked", _GAUGE, blocks)


def worth(call: Call) -> Response:
    """Whether something is worth buying for a feature."""
    from crib.app.worth import Reckoned
    from crib.app.worth import worth as reckoned
    from crib.pages.sheet import sheet
    from crib.pages.worth_page import worth_page

    name, asked = kind_of(call), texts_of(call)

    def blocks(texts: _Texts) -> Sequence[Block]:
        with call.open() as crib, call.bench.planning:
            found = reckoned(crib, name, {**asked, **texts})
        return worth_page(found.found, found.shop.currency) if isinstance(found, Reckoned) else sheet(found.found)

    title = f"Is anything worth buying for {known.words_of(name)}?"
    return _page(call, title, _WORTH, blocks, at_once=True, hidden=asked, back=f"/answer/{name}?{urlencode(asked)}")


def wish_list(call: Call) -> Response:
    """Everything that could be bought for what was asked so far."""
    from crib.app.wishes import wish_list as wishes
    from crib.pages.wish_page import wish_page

    def blocks(texts: _Texts) -> Sequence[Block]:
        with call.open() as crib, call.bench.planning:
            found, most, shop = wishes(crib, texts.get("budget"))
        return wish_page(found, shop, most)

    return _page(call, "What would save most", _BUDGET, blocks, at_once=True)


def to_mic(call: Call) -> Response:
    """Which cutters to measure so that most of what was asked can be answered."""
    from crib.app.to_mic import to_mic as measuring
    from crib.intake.attributes import ATTRIBUTES
    from crib.pages.asked_again import in_a_line
    from crib.pages.to_mic_page import nothing_to_mic, to_mic_page

    def blocks(texts: _Texts) -> Sequence[Block]:
        most = call.number("most") or 3
        with call.open() as crib, call.bench.planning:
            found, questions = measuring(crib, most)
        if not found.measures:
            return [Paragraph(nothing_to_mic(len(questions), most, found.could_turn))]
        said = {one.id: in_a_line(one.as_json()) for one in questions}
        return to_mic_page(found, said, {key: one.name for key, one in ATTRIBUTES.items()})

    return _page(call, "What to measure first", _MOST, blocks, at_once=True)


def check_up(call: Call) -> Response:
    """What is amiss with the records, each fault with what to do."""
    from crib.app.check_up import check_up as looked_over

    with call.open() as crib:
        units, faults = crib.units, looked_over(crib)
        said = [(one.cutter_id, *told(one, units)) for one in faults]
    return call.page("check_up.html", faults=[(number, says, *_to_say(help)) for number, says, help in said])


def _to_say(help: str) -> tuple[str, str]:
    """What would help, where it isn't a word on the cutter's own page; else that word.

    >>> _to_say("crib now 12 diameter measured SIZE"), _to_say("mic it")
    (('', 'diameter measured SIZE'), ('mic it', ''))
    """
    command = re.fullmatch(r"crib now \d+ (.+)", help)
    return ("", command[1]) if command else (help, "")


def out(call: Call) -> Response:
    """What is lent or lost, to whom and since when."""
    with call.open() as crib:
        gone = looking.away(crib, call.text("who"))
    rows = [(one.since, str(cutter.id), cutter.label, one.how, one.who, cutter.drawer or "") for cutter, one in gone]
    shown: Sequence[Block] = [table(("since", "no", "cutter", "how", "who has it", "its place"), rows)] if rows else [
        Paragraph("nothing is lent or lost")]
    return _page(call, "Lent or lost", (("who", "who", "only what this person has"),), lambda _: shown, at_once=True)


def _page(call: Call, title: str, fields: _Fields, answer: Callable[[_Texts], Sequence[Block]], needed: str = "",
          at_once: bool = False, hidden: _Texts | None = None, back: str = "") -> Response:
    """A form with its answer under it, once something is asked; what can't be read is said over what was typed."""
    texts = {name: call.text(name) for name, _, _ in fields if call.text(name)}
    blocks, failed = "", None
    try:
        if texts or at_once:
            blocks = fragment(answer(texts), units_of(call))
    except CribError as error:
        failed = error.finding
        if failed.id == "no-crib":
            raise
    return call.page("tool.html", 400 if failed else 200, title=title, fields=fields, texts=texts, blocks=blocks,
                     failed=failed, needed=needed, hidden=hidden or {}, back=back, at_once=at_once)
