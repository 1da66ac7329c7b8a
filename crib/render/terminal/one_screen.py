"""What of a page gives way, step by step, where it is more than a screen: first what stands elsewhere too, then what
only takes room. No verdict, cutter, setting or caution is ever left out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from crib.findings.message import Fact, Message, Sentence, joined, said
from crib.light.records import replace
from crib.pages.blocks import ALWAYS, Beside, Block, Fit, Paragraph, Spacer, Table

Laid = Callable[[Sequence[Block]], list[str]]
"""How blocks are laid out in lines."""


def laid_out(blocks: Sequence[Block], most: int, aimed: Laid, plainly: Laid) -> list[str]:
    """The blocks in no more lines than `most`, if they can give way so far: as few steps as it takes. `aimed`: how a
    whole page is laid out; `plainly`: some blocks of it."""
    now, rows = list(blocks), aimed(blocks)
    left_out = _left_out(blocks)
    while len(rows) > most and (less := next(left_out, None)) is not None:
        now, rows = less, aimed(less)
    for step in (_together, _ragged, _without(2), partial(_snug, plainly), _run_on, _without(ALWAYS - 1)):
        if len(rows) <= most:
            break
        less = step(now)
        if len(fewer := aimed(less)) < len(rows):
            now, rows = less, fewer
    return rows


def _left_out(blocks: Sequence[Block]) -> Iterator[list[Block]]:
    """The page with ever more left out: spare paragraphs, from the last on, then the room between groups, from the
    first on, then what is spare beside a drawing."""
    now = list(blocks)
    goes: list[Block] = [one for one in reversed(now) if isinstance(one, Paragraph) and one.spare]
    for gone in [*goes, *(one for one in now if isinstance(one, Spacer))]:
        now.remove(gone)
        yield list(now)
    while less := _shortened(now):
        now = less
        yield list(now)


def _shortened(blocks: Sequence[Block]) -> list[Block]:
    """Without the last of the spare paragraphs beside a drawing; nothing where there is none."""
    for place, block in enumerate(blocks):
        spare = [one for one in block.text if one.spare] if isinstance(block, Beside) else []
        if spare and isinstance(block, Beside):
            kept = tuple(one for one in block.text if one is not spare[-1])
            return [*blocks[:place], replace(block, text=kept), *blocks[place + 1:]]
    return []


def _without(importance: int) -> Callable[[list[Block]], list[Block]]:
    """Tables without their columns up to an importance, so that others have room for theirs; but those stay that are
    told in another way when they go, and all of a table that names what is left out."""
    def narrowed(blocks: list[Block]) -> list[Block]:
        return [_narrower(one, importance) if isinstance(one, Table) and one.silent else one for one in blocks]
    return narrowed


def _narrower(table: Table, importance: int) -> Table:
    kept = [at for at, one in enumerate(table.columns) if one.importance > importance or one.instead]
    rows = tuple(replace(row, cells=tuple(row.cells[at] for at in kept)) for row in table.rows)
    return replace(table, columns=tuple(table.columns[at] for at in kept), rows=rows)


def _ragged(blocks: list[Block]) -> list[Block]:
    """Tables without heads, each row on as few lines as it takes."""
    return [replace(one, fit=Fit.RAGGED) if isinstance(one, Table) and not any(column.head for column in one.columns)
            else one for one in blocks]


def _together(blocks: list[Block]) -> list[Block]:
    """Paragraphs that follow each other under one label in one."""
    return _drawn(blocks, lambda one: "" if one.indent else str(one.label), _after)


def _after(said_last: Fact) -> str:
    """What parts one from the next that is said under the same label: a semicolon, where no full stop does."""
    return " " if _is_ended(said_last) else "; "


def _is_ended(text: Fact) -> bool:
    """Whether a text ends with a full stop.

    >>> _is_ended(Sentence("too fast")), _is_ended("too fast"), _is_ended(said("{what}", what=Sentence("too fast")))
    (True, False, True)
    """
    if isinstance(text, Message):
        return text.template.endswith(".") or (
            text.template.endswith("}") and bool(text.facts) and _is_ended(text.facts[-1][1]))
    return isinstance(text, Sentence) or (isinstance(text, str) and text.endswith("."))


def _snug(plainly: Laid, blocks: list[Block]) -> list[Block]:
    """What is said of passes, as many on a line as it holds whole."""
    return _drawn(_bare(blocks), _of_passes, _bar, lambda one: len(plainly([one])) == 1)


def _run_on(blocks: list[Block]) -> list[Block]:
    """What is said of passes in one paragraph."""
    return _drawn(_bare(blocks), _of_passes, _bar)


def _bar(said_last: Fact) -> str:
    return " | "


def _of_passes(one: Paragraph) -> str:
    return "of passes" if one.indent and one.hang else ""


def _bare(blocks: list[Block]) -> list[Block]:
    """What is said of passes with its numbers in it, no more before it."""
    return [replace(one, text=said("{which}: {text}", which=one.label, text=one.text), label="")
            if isinstance(one, Paragraph) and one.label and _of_passes(one) else one for one in blocks]


def _drawn(blocks: list[Block], key: Callable[[Paragraph], str], between: Callable[[Fact], str],
           fits: Callable[[Paragraph], bool] = lambda one: True) -> list[Block]:
    """Paragraphs in a row that have the same key drawn together while they fit; those without one stay."""
    out, last = list[Block](), ""
    for block in blocks:
        mine = key(block) if isinstance(block, Paragraph) else ""
        before = out[-1] if out else None
        whole = None
        if mine and mine == last and isinstance(before, Paragraph) and isinstance(block, Paragraph):
            whole = replace(before, text=joined(between(before.text), (before.text, block.text)))
        if whole is not None and fits(whole):
            out[-1] = whole
        else:
            out.append(block)
        last = mine
    return out
