"""What a set-up sheet is made of: steps of things to tick off, each with what to set, to read and to write down. No
units and no widths, as in `blocks`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crib.findings.message import Fact, Text
from crib.light.records import dataclass

if TYPE_CHECKING:
    from crib.pages.part.scene import PartScene
    from crib.pages.scene import CutterScene, FromAbove, HolesFromAbove, Scene, Strip


@dataclass(frozen=True)
class Setting:
    """A slide and what it is set to: its reading, and where there is no readout the same on its dial."""

    slide: str
    reading: Fact
    dial: Fact = ""


@dataclass(frozen=True)
class Task:
    """Something to do and to tick off, `times` over, with room to write a `blank` size. Of a pass: its number, what to
    set, which way it is fed."""

    text: Fact
    number: int | None = None
    settings: tuple[Setting, ...] = ()
    feed: str = ""
    notes: tuple[Fact, ...] = ()
    times: int = 1
    blank: bool = False


@dataclass(frozen=True)
class Reads:
    """Something to measure, with what, and what it should read; its limits where there are any. What it does read is
    written beside it."""

    what: Fact
    instrument: str
    reads: Fact
    limits: Fact = ""


@dataclass(frozen=True)
class Step:
    """Things to do one after the other, under a title, with what holds for all of them, and how it looks: in the
    section, and from above."""

    title: Fact
    tasks: tuple[Task | Reads, ...]
    facts: tuple[tuple[str, Fact], ...] = ()
    scene: Scene | None = None
    above: FromAbove | Strip | None = None


@dataclass(frozen=True)
class CutterCard:
    """A cutter to get out: what it is, where it lies, what holds it, and the sizes to check before it goes in."""

    number: int
    what: Fact
    place: str
    holder: Text
    checks: tuple[Reads, ...]
    notes: tuple[Text, ...] = ()
    scene: CutterScene | None = None


@dataclass(frozen=True)
class SetupSheet:
    """One plan on paper. `asked`: what is made, a size each; `beyond`: what lies outside the drawing; `ready`: what to
    have at hand; `cautions` are this plan's own, `always` goes for any work at a mill; `reasons`: why it is done this
    way."""

    title: str
    answer: Text
    facts: tuple[tuple[str, Fact], ...]
    cutters: tuple[CutterCard, ...]
    ready: tuple[Fact, ...]
    pictures: tuple[Scene | FromAbove | HolesFromAbove, ...]
    steps: tuple[Step, ...]
    beyond: tuple[Fact, ...] = ()
    cautions: tuple[Fact, ...] = ()
    always: tuple[str, ...] = ()
    reasons: tuple[Fact, ...] = ()


@dataclass(frozen=True)
class ToolLine:
    """A cutter of a part as it goes in: what holds it, what it is, where it lies, the numbers of what it does, and its
    minutes."""

    holder: Text
    cutter: Text
    place: str
    does: Text
    minutes: float


@dataclass(frozen=True)
class SetupCard:
    """A set-up of a part on one look: how the work lies, what holds it, from where it counts, and its minutes."""

    number: int
    words: Fact
    facts: tuple[tuple[str, Fact], ...]
    minutes: float
    scene: PartScene
    tools: tuple[ToolLine, ...]


@dataclass(frozen=True)
class OperationSteps:
    """An operation of a part: the key that it keeps whenever the part is planned, its number, and its steps; where it
    is done, none."""

    key: str
    number: int
    title: Fact
    steps: tuple[Step, ...]
    is_done: bool = False


@dataclass(frozen=True)
class SetupSteps:
    """A set-up of a part step by step: getting ready, each operation, and what is done before it comes loose."""

    title: Fact
    before: tuple[Step, ...]
    operations: tuple[OperationSteps, ...]
    after: tuple[Step, ...]


@dataclass(frozen=True)
class PartSheet:
    """A whole part on paper: the first page is all of it on one look, then it is told step by step; `squared`: how the
    blank is sawn and squared."""

    title: str
    answer: Text
    facts: tuple[tuple[str, Fact], ...]
    setups: tuple[SetupCard, ...]
    ready: tuple[Fact, ...]
    parts: tuple[SetupSteps, ...]
    lacking: tuple[Fact, ...] = ()
    beyond: tuple[Fact, ...] = ()
    cautions: tuple[Fact, ...] = ()
    always: tuple[str, ...] = ()
    news: tuple[Fact, ...] = ()
    squared: Step | None = None
