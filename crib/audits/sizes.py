"""What is on record of a cutter's sizes, and whether it can be so."""

from __future__ import annotations

import re
from collections.abc import Iterator

from crib.audits.base import Bench, fault, name
from crib.cutters import kind_of
from crib.cutters.base import Cutter, Down
from crib.cutters.checks import impossible
from crib.findings.finding import Finding
from crib.findings.message import Mm, said
from crib.intake.attributes import ATTRIBUTES
from crib.intake.shorthand.marks import keyseat

OVER_MM, UNDER_MM, UNDER_SHARE = 0.003 * 25.4, 0.060 * 25.4, 0.10
"""So much over its stamp, or so much or such a share under it, a cutter doesn't measure by grinding alone. From
memory."""

DRILL_OVER_MM, DRILL_UNDER_MM = 0.0005 * 25.4, 0.002 * 25.4
"""How far a drill may be off its name. Common practice, no source."""

STAMP_MM = 0.010 * 25.4
LONGEST_ASSUMED, LONGEST_DULL = 90, 60


def cannot_be(bench: Bench) -> Iterator[Finding]:
    """AU1: no record contradicts itself."""
    for cutter in bench.cutters:
        for found in (*impossible(cutter), *kind_of(cutter).check(cutter)):
            yield fault("AU1", cutter.id, said("{cutter}: {says}", cutter=name(cutter), says=found.says),
                        f"mic it, then crib amend {cutter.id}")


def off_its_stamp(bench: Bench) -> Iterator[Finding]:
    """AU2: what a cutter measures and what is stamped on it can belong together."""
    for cutter in bench.cutters:
        stamp, size = cutter.nominal_mm, cutter.diameter_mm
        if Down.DRILLING in kind_of(cutter).down or stamp is None or size is None:
            continue
        says = said("{name}: stamped {stamp}, measured {size}", name=name(cutter), stamp=_fine(stamp),
                    size=_fine(size))
        if size > stamp + OVER_MM:
            yield fault("AU2", cutter.id, said("{says}: a cutter doesn't grow",
                                               says=says), f"mic it again, or look at the stamp: "
                        f"crib amend {cutter.id} --diameter SIZE --measured diameter")
        elif size < stamp - min(UNDER_MM, UNDER_SHARE * stamp):
            yield fault("AU2", cutter.id, said("{says}: more than grinding takes",
                                               says=says), f"mic it again, or look at the stamp: "
                        f"crib amend {cutter.id} --nominal SIZE")
        elif size < stamp - OVER_MM and not cutter.reground:
            yield fault("AU2", cutter.id, said("{says}, and isn't on record as reground", says=says),
                        said("crib now {id} reground {size}", id=cutter.id, size=_fine(size)))


def other_number(bench: Bench) -> Iterator[Finding]:
    """AU3: a keyseat cutter's number is that of its size."""
    for cutter in bench.cutters:
        marked = re.search(r"\b\d{3,4}(?:-1/2)?\b", cutter.marking or "")
        meant = keyseat(marked[0]) if marked and "face_mm" in kind_of(cutter).shown_keys else None
        if marked is None or meant is None or cutter.diameter_mm is None:
            continue
        if abs(cutter.diameter_mm - meant[0]) > (UNDER_MM if cutter.reground else STAMP_MM):
            likely = f"; {other} would be" if (other := _number(cutter)) else ""
            yield fault("AU3", cutter.id, said("{name} is marked {marked}, {meant} across, and measures {size}{likely}",
                                               name=name(cutter), marked=marked[0], meant=_fine(meant[0]),
                                               size=_fine(cutter.diameter_mm),
                                               likely=likely), "read the mark again, and mic it")


def _number(cutter: Cutter) -> str | None:
    """The number that a cutter of its size would have."""
    marks = [f"{face}{across:02}" for face in range(2, 13) for across in range(2, 29)]
    own = (cutter.diameter_mm or 0.0, cutter.face_mm or 0.0)
    return next((mark for mark in marks if (size := keyseat(mark))
                 and all(abs(one - other) < STAMP_MM for one, other in zip(size, own, strict=True))), None)


def drill_off_its_name(bench: Bench) -> Iterator[Finding]:
    """AU4: a drill measures what it is called."""
    for cutter in bench.cutters:
        stamp, size = cutter.nominal_mm, cutter.diameter_mm
        if Down.DRILLING in kind_of(cutter).down and stamp is not None and size is not None and not \
                stamp - DRILL_UNDER_MM - 1e-6 <= size <= stamp + DRILL_OVER_MM + 1e-6:
            yield fault("AU4", cutter.id, said("{name} measures {size}, its name says {stamp}", name=name(cutter),
                                               size=_fine(size), stamp=_fine(stamp)),
                        "it is worn, or in the wrong hole of the index: mic the margins")


def ground_since_measured(bench: Bench) -> Iterator[Finding]:
    """AU5: what was measured was measured after the last grinding."""
    for cutter in bench.there:
        ground, mic = bench.days_since(cutter, "condition"), bench.days_since(cutter, "diameter_mm")
        sharpened = cutter.condition == "sharp" and "diameter_mm" in cutter.measured
        if sharpened and ground is not None and mic is not None and ground < mic:
            yield fault("AU5", cutter.id, f"{name(cutter)} was sharpened after it was measured",
                        f"mic it: crib now {cutter.id} measured SIZE")


def not_measured(bench: Bench) -> Iterator[Finding]:
    """AU6: what decides is known. First those of the kinds that were asked for most."""
    often: dict[str, int] = {}
    kinds = {cutter.id: cutter.kind for cutter in bench.cutters}
    for question in bench.questions:
        for number in question.cutters:
            often[kinds.get(number, "")] = often.get(kinds.get(number, ""), 0) + question.times
    for cutter in sorted(bench.there, key=lambda one: (-often.get(one.kind, 0), one.id)):
        asks = [(one.key, one.ask) for one in kind_of(cutter).unknowns(cutter) if one.at_once]
        if cutter.reground and cutter.diameter_mm is None:
            asks = [("diameter_mm", "mic the diameter"), *asks]
        for key, ask in asks[:1]:
            named = ATTRIBUTES[key].name
            do = f"crib now {cutter.id} {named.replace('-', ' ')} measured SIZE" if key.endswith("_mm") else \
                f"crib amend {cutter.id} --{named}"
            yield fault("AU6", cutter.id, f"{name(cutter)}: {ask}", do)


def long_assumed(bench: Bench) -> Iterator[Finding]:
    """AU7: what is only usual for its kind is looked at some day."""
    for cutter in bench.there:
        old = [key for key in cutter.assumed if (bench.days_since(cutter, key) or 0) > LONGEST_ASSUMED]
        if old:
            names = ", ".join(ATTRIBUTES[key].name.replace("-", " ") for key in old)
            yield fault("AU7", cutter.id, f"{name(cutter)}: {names} only assumed, for over {LONGEST_ASSUMED} days",
                        f"measure it: crib amend {cutter.id} --{ATTRIBUTES[old[0]].name} SIZE")


def long_dull(bench: Bench) -> Iterator[Finding]:
    """AU8: what is dull is ground."""
    for cutter in bench.there:
        days = bench.days_since(cutter, "condition") or 0
        if cutter.condition == "dull" and days > LONGEST_DULL:
            yield fault("AU8", cutter.id, f"{name(cutter)} has been dull for {days} days",
                        f"grind it, then: crib now {cutter.id} reground SIZE")


def _fine(mm: float) -> Mm:
    return Mm(mm, places=4)


AUDITS = (cannot_be, off_its_stamp, other_number, drill_off_its_name, ground_since_measured, not_measured, long_assumed,
          long_dull)
