"""What programs call: the questions of the command line, and its answers.

Sizes and the like are texts, as they are typed: `"5/8+.002-0"`, `".410"`, `"16mm±.02"`; bare ones are in the units of
the crib. Each answer is a frozen dataclass, lengths in mm, and `as_json()` is the document that `--json` prints.
"""

from __future__ import annotations

import warnings
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, TypeVar

from crib.app import asking
from crib.app.gauge import Candidate, Named
from crib.app.gauge import gauge as gauged
from crib.app.kinds import PATIENCE, check, fields_of
from crib.app.opening import Crib
from crib.app.opening import open_crib as opened
from crib.app.part.plan import PART_PATIENCE
from crib.app.part.plan import plan as planned
from crib.app.tap import TapAdvice
from crib.app.tap import tap as tapped
from crib.app.worth import TERMS, Reckoned
from crib.app.worth import worth as reckoned
from crib.buying.worth import Answer
from crib.findings import notices
from crib.findings.errors import CribError
from crib.findings.message import a
from crib.light.records import dataclass, field, fields
from crib.planning.parts.planned import PlannedPart
from crib.planning.told.advice import Advice
from crib.render.json.answer import advice_json
from crib.render.json.gauge import gauge_json
from crib.render.json.money import worth_json
from crib.render.json.part import part_json
from crib.render.json.tap import tap_json

if TYPE_CHECKING:
    from crib.app.in_words import Heard

__all__ = ["AskAnswer", "Crib", "CribError", "GaugeAnswer", "PartAnswer", "TapAnswer", "WorthAnswer", "ask", "gauge",
           "open_crib", "part", "tap", "worth"]

_SHOWN = 12
_WORDS = {True: "yes", False: "no"}

Made = TypeVar("Made")


@dataclass(frozen=True)
class AskAnswer(Advice):
    """Which cutters can make it, and how: the plans best first, and why not with the rest. Sentences are worded in
    `units`. `heard`: what was read, where it was asked in words."""

    units: str = "in"
    heard: Heard | None = None

    def as_json(self, refused: int | str = _SHOWN) -> dict[str, Any]:
        """As `crib make --json` has it; `refused`: how many refused cutters, or `"all"`."""
        return advice_json(self, self.units, refused) | (self.heard.as_json() if self.heard else {})


@dataclass(frozen=True)
class WorthAnswer(Answer):
    """Buy, borrow, grind or work around, and what would turn that; money is in `currency`."""

    currency: str = ""
    units: str = "in"

    def as_json(self) -> dict[str, Any]:
        """As `crib worth --json` has it."""
        return worth_json(self, self.currency, self.units)


@dataclass(frozen=True)
class PartAnswer(PlannedPart):
    """How a whole part is made: its set-ups and operations in order, what they come to, and the least that they can.
    `sawn`: the blank; `beside`: what was measured of it and what changed since."""

    units: str = "in"
    sawn: Mapping[str, Any] = field(default_factory=dict)
    beside: Mapping[str, Any] = field(default_factory=dict)

    def as_json(self) -> dict[str, Any]:
        """As `crib part NAME --json` has it."""
        return part_json(self, self.units, self.sawn, self.beside)


@dataclass(frozen=True)
class TapAnswer(TapAdvice):
    """Which tap and drill belong together, the hole that each drill makes, and how deep to go."""

    units: str = "in"

    def as_json(self) -> dict[str, Any]:
        """As `crib tap --json` has it."""
        return tap_json(self, self.units)


@dataclass(frozen=True)
class GaugeAnswer:
    """What something unmarked may be, likeliest first; where nothing fits, what is nearest."""

    candidates: tuple[Candidate, ...]
    nearest: tuple[Candidate, ...] = ()
    units: str = "in"

    def as_json(self) -> dict[str, Any]:
        """As `crib gauge --json` has it."""
        return gauge_json(Named(self.candidates, self.nearest), self.units)


def open_crib(where: str | None = None, *, create: bool = False, units: str | None = None) -> Crib:
    """Open the crib at a path or URL, else the one that CRIB_DB names, else the user's own; use it as a context. With
    `create` it is begun where there is none. `units`: `"in"` or `"mm"`, of what is asked and answered, else the crib's.

    Raises `CribError` where it can't be opened, and warns of what is wrong with it otherwise.
    """
    if units not in (None, "in", "mm"):
        raise CribError("units", f"units {units!r} are neither in nor mm", str(units), "in or mm")
    crib = opened(where, create, units)
    for said in notices.take():
        warnings.warn(said, stacklevel=2)
    return crib


def ask(crib: Crib, kind: str, /, *, relax: bool = False, patience: float = PATIENCE, remember: bool = False,
        **texts: str | bool) -> AskAnswer:
    """Which cutters of a crib can make a feature, and how: `crib make KIND`, or in words, `crib make TEXT`.

    `texts`: its sizes and the rest by the names of the options, `-` written `_`. `relax`: also which change of the
    drawing would do; `patience`: seconds to look for a way; `remember`: write the question down in the crib. Raises
    `CribError` for what can't be read, can't be together or isn't reckoned with.
    """
    kind, texts, said = _in_words(crib, kind, texts)
    read = _texts(kind, texts)
    reply = asking.ask(crib, kind, read, relax=relax, patience=patience)
    if reply.stopped:
        raise KeyboardInterrupt
    if remember:
        asking.remember(crib, reply)
    return _as(AskAnswer, reply.advice, units=reply.enquiry.shop.units, heard=said)


def worth(crib: Crib, kind: str, /, *, accept: bool = False, **texts: str | bool) -> WorthAnswer | AskAnswer:
    """Whether something is worth buying for a feature: `crib worth KIND`.

    `texts`: as for `ask`, and the terms: price, shipping, uses, wait, deadline, day_cost, cutter. `accept`: what the
    work-around gives away will do. A part that is referred gets the answer of `ask`. Raises `CribError` as `ask` does.
    """
    found = reckoned(crib, kind, _texts(kind, texts, TERMS), accept)
    if not isinstance(found, Reckoned):
        return _as(AskAnswer, found.advice, units=found.enquiry.shop.units)
    return _as(WorthAnswer, found.found, currency=found.shop.currency, units=found.shop.units)


def part(crib: Crib, name: str, /, *, patience: float = PART_PATIENCE, lacking: bool = True) -> PartAnswer:
    """How the whole of a part that is on file is made, from where it stands: `crib part NAME`.

    `patience`: seconds of the processor's time to look for the best way; `lacking`: also which one thing more would
    change most for it. Raises `CribError` where there is none of that name, and for what can't be read or can't lie as
    it does.
    """
    reply = planned(crib, name, patience, lacking=lacking)
    return _as(PartAnswer, reply.planned, units=reply.shop.units, sawn=reply.sawn, beside=reply.beside)


def tap(crib: Crib, thread: str, /, *, depth: str | None = None, through: bool = False, below: str | None = None,
        class_name: str | None = None, material: str = "", drill: str | None = None, form: str | None = None,
        use: str | None = None, mating: str | None = None, power: bool = False) -> TapAnswer:
    """Whether tap and drill of a crib belong together, and how deep to go: `crib tap THREAD`. Raises `CribError` for
    what can't be read or can't be together."""
    found = tapped(crib, thread, depth=depth, through=through, below=below, class_name=class_name, material=material,
                   drill=drill, form=form, use=use, mating=mating, power=power)
    return _as(TapAnswer, found, units=crib.units)


def gauge(kind: str | None = None, /, *, units: str = "in", diameter: str | None = None, width: str | None = None,
          pitch: str | None = None, tpi: str | None = None, angle: str | None = None, hole: str | None = None,
          small: str | None = None, length: str | None = None, radius: str | None = None, pin: str | None = None,
          over_pins: str | None = None, between_pins: str | None = None, opening: str | None = None,
          height: str | None = None) -> GaugeAnswer:
    """What something unmarked may be by what was measured of it: `crib gauge`. No crib is needed; bare sizes are in
    `units`. Raises `CribError` for what can't be read and where nothing was measured.

    >>> [one.label for one in gauge("tap", diameter=".250", tpi="20").candidates if not one.twin]
    ['1/4-20 UNC tap', '1/4-20 BSW tap']
    """
    found = gauged(kind, units=units, diameter=diameter, width=width, pitch=pitch, tpi=tpi, angle=angle, hole=hole,
                   small=small, length=length, radius=radius, pin=pin, over_pins=over_pins, between_pins=between_pins,
                   opening=opening, height=height)
    return GaugeAnswer(*found, units)


def _in_words(crib: Crib, kind: str, texts: dict[str, str | bool]) -> tuple[str, dict[str, str | bool], Heard | None]:
    """A kind and what is asked of it; from words, where it isn't a kind's name that was given. Raises `CribError` for
    words that can't be read, that lack something, or that say again what is given beside them."""
    if " " not in kind.strip():
        return kind, texts, None
    from crib.app.in_words import heard

    said = heard(kind, crib.units, {key: str(text) for key, text in texts.items()})
    for key in said.question.texts.keys() & texts.keys():
        raise CribError("words", f"{key} is said in words and beside them", str(texts[key]), "one of the two")
    return said.question.kind, {**said.question.texts, **texts}, said


def _as(kind: type[Made], found: Any, **more: Any) -> Made:
    """What was found, with what its JSON needs."""
    return kind(**{one.name: getattr(found, one.name) for one in fields(found)}, **more)


def _texts(kind: str, given: Mapping[str, str | bool], more: tuple[str, ...] = ()) -> dict[str, str]:
    """What was given, as it would be typed. Raises `CribError` for a kind or a name that there isn't, and for what is
    no text: of a bare number nobody knows how exactly it was meant."""
    check(kind)
    names = [*(one.key for one in fields_of(kind)), *more]
    for name, text in given.items():
        if name not in names:
            from crib.intake.near import one_of

            raise CribError("option", f"{a(kind)} isn't asked with {name!r}", name, one_of(name, names))
        if not isinstance(text, str | bool):
            raise CribError("text", f"{name} {text!r} isn't a text", repr(text), f'as it is typed: {name}="{text}"')
    return {name: _WORDS[text] if isinstance(text, bool) else text for name, text in given.items()}
