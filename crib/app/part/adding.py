"""What is put to a part in words, or by the number of a question; and asking for its place where that isn't said."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from crib.app.part.on_file import asked_before, find, read_part, read_text
from crib.features import KINDS
from crib.features.base import Comes
from crib.findings.errors import CribError
from crib.intake.place_in_words import InWords, read_lying
from crib.light.tuples import NamedTuple
from crib.parts import edit
from crib.parts.frame import SIDES, across_its_run
from crib.parts.part import Placed
from crib.planning.parts.asked import asked_feature
from crib.store import Crib


class Told(NamedTuple):
    """What a feature's block says, and how it was read, where that was words."""

    said: dict[str, str]
    read: str


def told(crib: Crib, name: str, words: list[str], given: Mapping[str, str]) -> Told:
    """What words ask and where they say it lies, or a question's number and words for its place. `given`: what options
    say of its place. Raises `CribError` for what can't be read."""
    number, *more = words
    units = read_part(crib, name).units
    if number.isascii() and number.isdigit():
        placed = read_lying(" ".join(more), units, given)
        if not placed.rest:
            return Told({**asked_before(crib, int(number)), **_with_unit(placed.said, units)}, placed.echo)
    placed = read_lying(" ".join(words), units, given)
    return _asked(placed)


def _with_unit(said: Mapping[str, str], units: str) -> dict[str, str]:
    """A place with its unit: a question that was asked in the other one mustn't have it read so."""
    at = [size if size[-1:] not in "0123456789" else f"{size}{units}" for size in said.get("at", "").split(", ")]
    return {**said, "at": ", ".join(at)} if "at" in said else dict(said)


def _asked(placed: InWords) -> Told:
    from crib.app.in_words import checked, hear

    asked = checked(hear(placed.rest))
    if not asked.kind:
        raise CribError("feature", f"{placed.rest!r} names no kind of feature", placed.rest, "crib kinds lists them")
    unused = f"not used: {', '.join(asked.unused)}" if asked.unused else ""
    return Told({"kind": asked.kind, **asked.texts, **placed.said},
                "; ".join(text for text in (asked.echo, placed.echo, unused) if text))


def check_place(crib: Crib, name: str, said: Mapping[str, Any]) -> None:
    """Raises `CribError` for a feature that can be read and doesn't say where it lies, unless it is where its kind
    always is: all of a face, or its edge."""
    at = str(said.get("at", ""))
    kind = KINDS.get(str(said.get("kind", "")))
    if kind is None or kind.comes is not Comes.ANYWHERE or "," in at:
        return
    block = {key.replace("_", "-"): value for key, value in said.items() if value != ""}
    kept, shop = find(crib, name), crib.shop()
    read = read_text(edit.with_feature(kept.text, block), shop, kept.name)
    was = read_text(kept.text, shop, kept.name)
    if read.part is None or was.part is None or len(read.part.features) == len(was.part.features):
        return
    one = read.part.features[-1]
    runs = asked_feature(read.part, one, shop).feature.down is None or "length" in one.texts
    if not at:
        is_shut = kind.ends == ("closed",) or one.texts.get("ends") == "closed"
        raise _where(one, runs and not is_shut, read.part.units)
    if not runs:
        raise _other_way(one, at)


def _where(one: Placed, runs: bool, units: str) -> CribError:
    (left, _), (front, _) = SIDES[one.place.face]
    small, large = ("1", "2-1/2") if units == "in" else ("25", "60")
    if runs:
        side, _ = across_its_run(one.place.face, one.place.runs)
        does = f"--at {small}, or '{small} from the {side}'"
    else:
        does = f"--at '{large}, {small}', or '{large} from the {left}, {small} from the {front}'"
    return CribError("place", f"{one.name}: where does it lie?", one.name, does)


def _other_way(one: Placed, at: str) -> CribError:
    (left, right), (front, back) = SIDES[one.place.face]
    return CribError("place", f"{one.name}: its place is told one way only, {at}: where does it lie the other way?", at,
                     f"how far from the {left} or {right}, and from the {front} or {back}: --at '2-1/2, 1'")
