"""Whether it is worth the money: the answer in a line, both plans, what turns it, and all that could be got."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf

from crib.buying.compare import BOUGHT, CENT, Way, Worth
from crib.buying.decide import Advised, Decision
from crib.buying.worth import Answer
from crib.findings.message import Fact, Sentence, Text, said
from crib.findings.verdicts import SHORT, WORDS, Verdict
from crib.pages.blocks import Align, Block, Blocks, Bullets, Column, Heading, Paragraph, Row, Table, spaced
from crib.planning.told.advice import AnyPlan

ADVICE_WORDS: dict[Way | Advised, str] = {
    Advised.BUY: "worth buying",
    Advised.BORROW: "borrow it",
    Advised.GRIND: "grind one up",
    Way.REGRIND: "have it reground",
    Way.NEIGHBOUR: "do it where they have the cutter",
    Advised.WORK_AROUND: "work around with what you own",
}
_TURNS = {"price": "a price of {at}", "uses": "{at} uses", "hour": "{at} for an hour"}
_SHOWN = 8


def worth_page(found: Answer, currency: str) -> Blocks:
    """The page."""
    decision, near = found.decision, found.decision.worth
    unmade = found.work is None and (near is None or found.verdict == Verdict.MEASURE_FIRST)
    head = [Paragraph(WORDS[found.verdict] if unmade else _advised(decision), "Answer", hang=2),
            Paragraph(Sentence(decision.says))]
    return spaced([head, list(_turns(found, currency)), list(_plans(found, near, currency)),
                   list(_table(found, currency)), list(_uses(found))])


def _advised(decision: Decision) -> str:
    """The advice in words: by its way, where that has words of its own."""
    if decision.worth and decision.advice != Advised.WORK_AROUND and decision.worth.offer.way in ADVICE_WORDS:
        return ADVICE_WORDS[decision.worth.offer.way]
    return ADVICE_WORDS[decision.advice]


def _turns(found: Answer, currency: str) -> Iterator[Block]:
    """Where the answer flips."""
    items: list[Text] = []
    for flip in found.flips:
        at = _TURNS[flip.what].format(at=f"{flip.at:.0f}" if flip.what == "uses" else f"{flip.at:.2f} {currency}")
        near = found.decision.worth
        if flip.what == "price" and near is not None and near.offer.shipping:
            at += f" and {near.offer.shipping:.2f} shipping"
        side = "from" if flip.what == "uses" else "above"
        items.append(said("{at}: {side} it {above}, below it {below}", at=at, side=side, above=flip.above,
                          below=flip.below))
    if items:
        yield Heading("What would change the answer")
        yield Bullets(tuple(items))
    if found.remark:
        yield Paragraph(Sentence(found.remark))


def _plans(found: Answer, near: Worth | None, currency: str) -> Iterator[Paragraph]:
    """The work-around, and the plan with what could be got."""
    mine: Text = SHORT[found.verdict] + "." if found.work is None else _plan(found.work, currency)
    yield Paragraph(mine, "With what you own", hang=2)
    if near is not None:
        yield Paragraph(_plan(near.plan, currency), said("With {it}", it=near.offer.named), hang=2)
        if near.offer.ask:
            yield Paragraph(Sentence(near.offer.ask), "Look for", hang=2)


def _plan(plan: AnyPlan, currency: str) -> Text:
    return said("{words}; {minutes:.0f} min, {cost:.2f} {currency}: {way}.", words=SHORT[plan.answer],
                minutes=plan.minutes, cost=plan.cost, currency=currency, way=plan.way)


_COLUMNS = (
    Column("what", wraps=True), Column("way", importance=2), Column("saves", Align.RIGHT),
    Column("price", Align.RIGHT, 4), Column("pays after", Align.RIGHT, 1), Column("up to", Align.RIGHT, 3),
)


def _table(found: Answer, currency: str) -> Iterator[Block]:
    """What could be got, best first."""
    near = found.decision.worth
    gaining = [worth for worth in found.worths if worth.each is None or worth.each > CENT or worth == near]
    if not gaining:
        return
    yield Paragraph(f"Could be got (money in {currency}; price, and up to which it pays: both with the shipping noted)")
    yield Table(_COLUMNS, tuple(Row(_cells(worth, found.terms.uses)) for worth in gaining[:_SHOWN]), indent=2)
    if len(gaining) > _SHOWN:
        yield Paragraph(f"and {len(gaining) - _SHOWN} more", indent=2)
    yield from _wear(gaining)


def _wear(worths: Sequence[Worth]) -> Iterator[Paragraph]:
    """The share of its price that a use wears off a bought cutter, where it is counted."""
    shares = sorted({worth.offer.wear for worth in worths if worth.offer.wear and worth.free is not None})
    if shares:
        counted = " or ".join(f"{100 * share:g} %" for share in shares)
        yield Paragraph(f"Wear counted: {counted} of the price a use, in what it pays up to, and in what it saves "
                        "where a price is known.")


def _cells(worth: Worth, uses: float) -> tuple[Fact, ...]:
    offer, pays = worth.offer, worth.uses_to_break_even
    is_bought = offer.way in (*BOUGHT, Way.REGRIND)
    up_to = worth.pays_up_to(uses) if is_bought else None
    spent = offer.price + offer.shipping if offer.price is not None and is_bought else None
    return (said("{label}{idle}", label=offer.label, idle=f" ({offer.idle} idle)" if offer.idle else ""),
            Way.BUY if offer.way == Way.HOLDER else offer.way, _money(worth.each), _money(spent),
            "" if pays is None or not worth.spent else "never" if pays == inf else f"{pays:.1f} uses",
            _money(up_to + offer.shipping if up_to else None))


def _money(value: float | None) -> str:
    return "" if value is None else f"{value:.2f}"


def _uses(found: Answer) -> Iterator[Paragraph]:
    if not found.served:
        return
    numbers = ", ".join(str(past.number) for past in found.served)
    why = "as you say" if found.terms.said else "this one, and what may come as it did before"
    yield Paragraph(f"{found.terms.uses:.1f}: {why}; it would have served "
                    f"question{'s' if len(found.served) > 1 else ''} {numbers}.", "Uses expected", hang=2)
