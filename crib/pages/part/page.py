"""A whole part on one screen: what is made in which set-up with what, in order, and beside it what was asked for."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import groupby

from crib.findings.finding import Grade
from crib.findings.message import Fact, Head, Sentence, Text, a, counted, joined, said
from crib.findings.verdicts import ANSWERS, WORDS, Verdict
from crib.light.records import replace
from crib.machining.chain import ON_A_TABLE
from crib.pages.answer import TONES
from crib.pages.blocks import Align, Beside, Block, Blocks, Column, Drawing, Paragraph, Row, Table, Tone, spaced
from crib.pages.first_screen import steel
from crib.pages.more import More
from crib.pages.outcome import outside
from crib.pages.part.scene import numbers, scenes
from crib.pages.part.steps import steps
from crib.pages.part.why import why
from crib.pages.part.words import PutUp, bound, compared, metal, minutes_of, put_ups, short_name
from crib.pages.part.zero import corner_words
from crib.pages.remarks import place, ranked, remark
from crib.planning.parts.planned import PlannedPart
from crib.planning.parts.works import work_of

MOST_FINDINGS = 3
"""So many findings stand on the first screen at the most, but each that forbids."""

def part_page(planned: PlannedPart, more: Collection[More] = (), blank: Text = "",
              news: Sequence[Fact] = (), cautions: Sequence[Text] = ()) -> Blocks:
    """The page. `more`: what is shown beside the first screen; `blank`: what to saw; `news`: what changed since it was
    planned last; `cautions`: what keeps hands and eyes whole."""
    groups: list[Sequence[Block]] = [[*_head(planned), *_changed(news)], [*_lacking(planned), *_outside(planned)]]
    if planned.operations:
        beside = (*_setups(planned), *_blank(blank), *_steel(planned))
        groups += [[Beside(Drawing(scenes(planned)), beside)], [operations(planned)]]
    groups.append([*_findings(planned, everything=bool(more)), *_care(cautions)])
    if More.STEPS in more:
        groups += steps(planned)
    if More.WHY in more:
        groups += why(planned)
    return spaced([*groups, _rest(planned, more)])


def verdict(planned: PlannedPart) -> Verdict:
    """What the whole comes to: the worst of its features."""
    answers = [one.advice.answer for one in planned.unmade] + [
        one.proved.plan.answer for one in planned.operations]
    return max(answers, key=ANSWERS.index, default=Verdict.CANNOT)


def _head(planned: PlannedPart) -> Iterator[Paragraph]:
    """What it comes to, the answer first."""
    if not planned.part.features:
        yield Paragraph("nothing to make yet - the part has no features", "Answer", tone=Tone.MIND)
        yield Paragraph(said('Put one to it: crib part {name} add "1/2 slot 1/4 deep" --at 1', name=planned.part.name),
                        indent=2)
        return
    worst = verdict(planned)
    yield Paragraph(left_out(planned) or WORDS[worst], "Answer", tone=TONES[worst])
    part, made = planned.part, len(dict.fromkeys(one.feature for one in planned.operations))
    whole = "whole" if not planned.unmade else f"{made} of {counted(len(part.features), 'feature')}"
    what = joined(", ", filter(None, (part.name, metal(planned), f"for {part.fits}" if part.fits else "")))
    yield Paragraph(said("{what}: {whole} in {count}, {minutes:.0f} min{done}; {bound}", what=what, whole=whole,
                         count=counted(len(planned.setups), "set-up"), minutes=planned.minutes, done=_done(planned),
                         bound=bound(planned)), indent=2)
    if alone := compared(planned):
        yield Paragraph(alone, indent=2)


def left_out(planned: PlannedPart) -> str:
    """Which features nothing makes, or wait for something; nothing where there is none."""
    if not planned.unmade:
        return ""
    names = ", ".join(one.feature for one in planned.unmade)
    waits = all(one.advice.answer == Verdict.MEASURE_FIRST for one in planned.unmade)
    refers = any(one.advice.answer == Verdict.REFER for one in planned.unmade)
    if refers:
        return f"not a bench decision - {names}: take it to who answers for it"
    return f"measure first - a size that decides isn't known for {names}" if waits else (
        f"not all of it with this crib - nothing in it makes {names}")


def _done(planned: PlannedPart) -> str:
    done = [one for one in planned.operations if one.done]
    left = sum(one.minutes for one in planned.operations if not one.done)
    return f", {len(done)} of {len(planned.operations)} done, {left:.0f} min of cutting to go" if done else ""


def _changed(news: Sequence[Fact]) -> Iterator[Paragraph]:
    for one in news:
        yield Paragraph(one, "Changed", hang=2, tone=Tone.MIND)


def _lacking(planned: PlannedPart) -> Iterator[Paragraph]:
    """What it lacks, with what would mend it."""
    for one in planned.lacking:
        yield Paragraph(said("{feature}: {says}", feature=one.feature, says=one.says) if one.feature else one.says,
                        f"Lacks {a(one.what)}" if one.what else "Lacks", hang=2, tone=Tone.BAD)


def _outside(planned: PlannedPart) -> Iterator[Paragraph]:
    """What lies outside the drawing, for whoever must say yes to it."""
    for name, plan in {one.feature: one.proved.plan for one in planned.operations}.items():
        for one in outside(plan):
            yield replace(one, text=said("{name}: {text}", name=name, text=one.text))


def _setups(planned: PlannedPart) -> Iterator[Paragraph]:
    """How the work lies in each, how it is held, from where it counts."""
    for one in planned.setups:
        minutes = minutes_of(planned, one)
        by_itself = planned.part.stock.diameter or one.stands == ON_A_TABLE
        zero = "" if by_itself else said("; zero at {corner}", corner=corner_words(planned.part, one))
        turned = ", turned end for end" if one.turned else ""
        yield Paragraph(said("{face} up{turned}, {minutes:.0f} min; {holds}{zero}", face=one.face, turned=turned,
                             minutes=minutes, holds=Head(one.holds), zero=zero), f"Set-up {one.no}", hang=2)


def _blank(blank: Text) -> Iterator[Paragraph]:
    if blank:
        yield Paragraph(blank, "Saw", hang=2)


def _steel(planned: PlannedPart) -> Iterator[Paragraph]:
    """Which cutters run slow because nobody knows their steel: it is most of what a part takes longer."""
    if said_so := steel([one.proved.plan for one in planned.operations]):
        yield Paragraph(said_so, "Steel", hang=2)


def operations(planned: PlannedPart) -> Table:
    """Cutters in the order in which they go in, with what holds them, where they lie, and what they do."""
    columns = (Column("up"), Column("holder", wraps=True), Column("cutter", wraps=True),
               Column("lies in", importance=2, wraps=True), Column("does", wraps=True), Column("min", Align.RIGHT, 3))
    rows, before = [], None
    for those in put_ups(planned.operations):
        one = those[0]
        held = one.holder if before is None or before.setup_no != one.setup_no or before.holder != one.holder else ""
        number = "" if before is not None and before.setup_no == one.setup_no else str(one.setup_no)
        rows.append(Row((number, held, short_name(planned, one.cutter),
                         place(one.cutter), does(planned, those), f"{sum(each.minutes for each in those):.0f}")))
        before = one
    return Table(columns, tuple(rows), silent=True)


def does(planned: PlannedPart, those: PutUp) -> Text:
    """What a cutter does while it is up: the numbers of the operations, each feature and what of it."""
    done = "done: " if those[0].done else ""
    told = [f"{numbers([each.no for each in mine])} {name}" for name, mine in (
        (name, tuple(mine)) for name, mine in groupby(those, key=lambda one: work_of(planned, one)))]
    return done + ", ".join(told)


def _findings(planned: PlannedPart, everything: bool) -> Iterator[Paragraph]:
    found = ranked(planned.findings)
    least = sum(one.grade in (Grade.STOP, Grade.CAUTION) for one in found)
    shown = found if everything else found[:max(MOST_FINDINGS, least)]
    yield from (replace(remark(one), spare=one.grade == Grade.NOTE) for one in shown)
    if len(found) > len(shown):
        yield Paragraph(f"{len(found) - len(shown)} more with --why", "Mind", hang=2, spare=True)


def _care(cautions: Sequence[Text]) -> Iterator[Paragraph]:
    for text in cautions:
        yield Paragraph(Sentence(text), "Take care", hang=2, tone=Tone.MIND)


def quoted(name: str) -> str:
    """A name as it is typed on a command line.

    >>> quoted("slide"), quoted("index plate")
    ('slide', '"index plate"')
    """
    return name if name.replace("-", "").replace("_", "").isalnum() else f'"{name}"'


def _rest(planned: PlannedPart, more: Collection[More]) -> list[Block]:
    """Where the rest is that isn't shown."""
    told = [f"--{one}" + (f" ({says})" if says else "") for one, says in (
        (More.STEPS, "every pass"), (More.WHY, "ways, minutes")) if one not in more and planned.operations]
    beside = ["--sheet FILE.html"] if planned.operations else []
    if to_do := next((one.no for one in planned.operations if not one.done), None):
        beside.append(f"crib part {quoted(planned.part.name)} tick {to_do}")
    return [Paragraph(", ".join([*told, *beside]), "More", hang=2)] if told or beside else []
