"""What pages are made of: blocks of text and quantities, for a terminal, paper or a screen. No units and no widths: who
shows them chooses both (`crib.render`)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.findings.message import Clause, Fact, Text, joined, said
from crib.light.choices import StrEnum
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass

if TYPE_CHECKING:
    from crib.pages.part.scene import PartScenes
    from crib.pages.scene import FromAbove, HolesFromAbove, Scene, Shape

ALWAYS = 100
"""The importance of a column that is never left out."""


@dataclass(frozen=True)
class Heading:
    """What stands over what follows."""

    text: Fact


class Tone(StrEnum):
    """What something is to whoever reads it."""

    GOOD = "good"
    MIND = "mind"
    BAD = "bad"


@dataclass(frozen=True)
class Paragraph:
    """A paragraph, behind its `label` and a colon where it has one. `indent`: how far it is set in, in characters;
    `hang`: how far its further lines are, as far as the first where nothing is said. `spare`: it may be left out where
    there is little room; `tone`: what it is to whoever reads it, as its words say too."""

    text: Fact
    label: Text = ""
    indent: int = 0
    hang: int | None = None
    spare: bool = False
    tone: Tone | None = None


@dataclass(frozen=True)
class Bullets:
    """A list; numbered from `first` on where that is given."""

    items: tuple[Fact, ...]
    first: int | None = None


class Align(StrEnum):
    """How the cells of a column stand: to the left, to the right, or with their points under each other."""

    LEFT = "left"
    RIGHT = "right"
    POINT = "point"


class Fit(StrEnum):
    """What becomes of a table that is too wide: cells that may be are wrapped and the least important columns left out;
    each row becomes a paragraph, its cells with commas between, as they stand, or two blanks apart; a
    list that other programs read line by line stays as wide as it is, but on a terminal, where its cells are
    wrapped."""

    DROP = "drop"
    LIST = "list"
    WRAP = "wrap"
    RAGGED = "ragged"
    ALL = "all"


@dataclass(frozen=True)
class Column:
    """A column. `importance`: the least important is left out first, with `instead` under the table then; `wraps`: its
    cells may run over several lines; `yields`: it goes before any figure is cut off."""

    head: Fact = ""
    align: Align = Align.LEFT
    importance: int = ALWAYS
    instead: Fact = ""
    wraps: bool = False
    yields: bool = False


@dataclass(frozen=True)
class Row:
    """The cells of a row, and what is said under it."""

    cells: tuple[Fact, ...]
    below: tuple[Paragraph, ...] = ()


@dataclass(frozen=True)
class Table:
    """Rows under their heads; no head is shown where all are empty, and no column that is empty. `silent`: what is left
    out isn't named."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    fit: Fit = Fit.DROP
    indent: int = 0
    silent: bool = False


@dataclass(frozen=True)
class TickList:
    """Boxes to tick on paper before each of some numbered things; `more`: what may be written under them."""

    title: Text
    boxes: tuple[str, ...]
    items: tuple[tuple[int, Text], ...]
    more: Text


@dataclass(frozen=True)
class Drawing:
    """A drawing to scale."""

    scene: Scene | FromAbove | HolesFromAbove | PartScenes


@dataclass(frozen=True)
class Beside:
    """A drawing with what is set from it beside it, where there is room; else under it."""

    drawing: Drawing
    text: tuple[Paragraph, ...]


@dataclass(frozen=True)
class Lineup:
    """Things drawn one under the other to one scale, each under its words; None where no size of it is known."""

    title: Text
    items: tuple[tuple[Text, Shape | None], ...]


@dataclass(frozen=True)
class Spacer:
    """Room between what belongs together and what doesn't."""


Block = Heading | Paragraph | Bullets | Table | TickList | Drawing | Beside | Lineup | Spacer
Blocks = tuple[Block, ...]


def spaced(groups: Iterable[Sequence[Block]]) -> Blocks:
    """Groups with room between them; those without anything are left out.

    >>> spaced([[Heading("a")], [], [Heading("b")]])
    (Heading(text='a'), Spacer(), Heading(text='b'))
    """
    out: list[Block] = []
    for group in filter(None, groups):
        out += [Spacer(), *group] if out else group
    return tuple(out)


def table(heads: Sequence[Fact], rows: Iterable[Sequence[Fact]], fit: Fit = Fit.DROP, indent: int = 0,
          right: frozenset[int] = frozenset()) -> Table:
    """A plain table; the columns numbered in `right` are set to the right.

    >>> table(("no", "Z"), [("1", "2")], right=frozenset({1})).columns[1].align
    <Align.RIGHT: 'right'>
    """
    columns = tuple(Column(head, Align.RIGHT if at in right else Align.LEFT) for at, head in enumerate(heads))
    return Table(columns, tuple(Row(tuple(cells)) for cells in rows), fit, indent)


def clauses(texts: Iterable[Fact]) -> Text:
    """Several remarks in one, as they follow a word and a colon.

    >>> clauses(["tolerance .005", "no wall near."]).template
    '{said}.'
    """
    return said("{said}.", said=joined("; ", map(Clause, texts)))
