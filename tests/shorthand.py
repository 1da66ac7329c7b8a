"""How well shop shorthand is read: the lines of tests/data/utterances.json against what a person expects of each.

`python -m tests.shorthand` prints the shares and every line that isn't read as expected.
"""

from __future__ import annotations

import json
import shutil
import sys
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.intake.shorthand import Shop
from crib.intake.shorthand.confirm import unknown
from crib.intake.talk.deeds import Outcome
from crib.intake.talk.session import Session
from crib.store import open_crib
from crib.units import nm, read

DATA = Path(__file__).parent / "data"
LINES: list[dict[str, Any]] = json.loads((DATA / "utterances.json").read_text(encoding="utf-8"))


@dataclass(frozen=True)
class Judged:
    """How a line was read: `read` without a question, `asked` as it should be, `over-asked` though nothing is unclear,
    or `wrong`, with what differs."""

    verdict: str
    differs: tuple[str, ...] = ()


def judged(line: dict[str, Any], empty: Path) -> Judged:
    """One line of the data, read in a crib of its own, a copy of an empty one."""
    with tempfile.TemporaryDirectory() as folder:
        path = shutil.copy(empty, Path(folder) / "crib.db")
        with open_crib(str(path)) as crib:
            session = Session(crib, Shop())
            for before in line.get("before", ()):
                session.say(before)
            outcome = session.say(line["said"])
    differs = tuple(differences(line, outcome))
    if differs:
        return Judged("wrong", differs)
    expected = bool(line.get("held") or line.get("asks"))
    if not outcome.held and not outcome.asks:
        return Judged("read")
    return Judged("asked" if expected else "over-asked")


def differences(line: dict[str, Any], outcome: Outcome) -> list[str]:
    """In what an outcome isn't what a line of the data expects."""
    if line.get("held"):
        said = f"{outcome.held.why} {outcome.held.help}" if outcome.held else ""
        return [] if line["held"] in said else [f"should ask {line['held']!r}: {outcome.says}"]
    cutters = outcome.amended if line.get("amends") else outcome.taken
    if not cutters:
        return [f"not taken in: {outcome.says}"]
    missed = [f"doesn't ask about {key}" for key in line.get("asks", ()) if key not in outcome.asks]
    return missed + _looked_at(line, cutters[0], outcome) + _of_a_set(line, cutters) + _fields(line, cutters[0])


def _looked_at(line: dict[str, Any], cutter: Cutter, outcome: Outcome) -> list[str]:
    """What isn't known stays unknown, and the confirm line says so."""
    wrong = []
    for key in line.get("look", ()):
        field = _key(key)
        if getattr(cutter, field) is not None:
            wrong.append(f"{key} was guessed: {getattr(cutter, field)}")
        if field not in unknown(cutter) and not any(key.split("_")[0][:5] in text for text in cutter.questions):
            wrong.append(f"{key} isn't named as missing: {outcome.says}")
    return wrong


def _of_a_set(line: dict[str, Any], cutters: tuple[Cutter, ...]) -> list[str]:
    there = [cutter for cutter in cutters if cutter.count]
    gone = {nm(cutter.diameter_mm or 0.0) for cutter in cutters if not cutter.count}
    sizes = {nm(cutter.diameter_mm or 0.0) for cutter in there}
    wrong = []
    if len(there) != line.get("items", 1) and not line.get("amends"):
        wrong.append(f"{len(there)} cutters")
    if {nm(read(name, "in").mm) for name in line.get("missing", ())} != gone and not line.get("amends"):
        wrong.append(f"missing are {gone}")
    wrong += [f"no {name}" for name in line.get("holds", ()) if nm(read(name, "in").mm) not in sizes]
    if line.get("chamfers", [cutter.tap_chamfer for cutter in there]) != [cutter.tap_chamfer for cutter in there]:
        wrong.append("chamfers")
    return wrong


def _fields(line: dict[str, Any], cutter: Cutter) -> list[str]:
    wrong = []
    for name, expected in line["fields"].items():
        key = _key(name)
        value = getattr(cutter, key)
        if key in LENGTH_KEYS:
            same = (value is None) == (expected is None) and (
                expected is None or nm(value) == nm(read(expected, "in").mm))
        elif key == "ends":
            same = [nm(end.diameter_mm or 0.0) for end in value] == [nm(read(text, "in").mm) for text in expected]
        elif key == "note":
            same = expected in (value or "")
        elif key == "away":
            same = any(expected in one for one in value)
        else:
            same = (list(value) if isinstance(value, tuple) else value) == expected
        if not same:
            wrong.append(f"{name} is {value!r}, not {expected!r}")
    return wrong


def _key(name: str) -> str:
    return next((key for key in (f"{name}_mm", f"{name}_deg") if key in Cutter.__dataclass_fields__), name)


def report(lines: list[dict[str, Any]]) -> tuple[Counter[str], list[str]]:
    """How many lines have each verdict, and what differs in those that are wrong."""
    with tempfile.TemporaryDirectory() as folder:
        empty = Path(folder) / "empty.db"
        open_crib(str(empty), create=True).close()
        verdicts = {line["said"]: judged(line, empty) for line in lines}
    said = [f"{text!r}: {'; '.join(one.differs) or one.verdict}" for text, one in verdicts.items()
            if one.verdict in ("wrong", "over-asked")]
    return Counter(one.verdict for one in verdicts.values()), said


def main() -> int:
    """Print the shares."""
    counts, said = report(LINES)
    for verdict in ("read", "asked", "over-asked", "wrong"):
        print(f"{verdict:>10}  {counts[verdict]:>4} of {len(LINES)}  {counts[verdict] / len(LINES):.0%}")
    print(*said, sep="\n")
    return int(counts["wrong"] > 0)


if __name__ == "__main__":
    sys.exit(main())
