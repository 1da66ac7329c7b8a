"""The whole crib: every tap against every drill."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.findings.errors import CribError
from crib.findings.finding import Grade
from crib.findings.message import Text, joined
from crib.findings.verdicts import Verdict
from crib.handbook.threads import Reading, read_thread
from crib.light.records import dataclass
from crib.shop import Shop
from crib.tapping.advise import advise_tap
from crib.tapping.shape import Asking, JudgedHole, NotOwned, TapAdvice

_MOST_SERVING = 3


@dataclass(frozen=True)
class TapChecked:
    """One owned tap: the drills that serve it, best first, or why there are none. `answer` as for a single thread."""

    tap: Cutter
    answer: Verdict
    says: Text
    thread: str | None = None
    drills: tuple[JudgedHole, ...] = ()
    not_owned: tuple[NotOwned, ...] = ()
    advice: TapAdvice | None = None


def check_all(cutters: Sequence[Cutter], shop: Shop, material: str = "", class_name: str | None = None
              ) -> tuple[TapChecked, ...]:
    """Every owned tap with the drills that serve it; raises `CribError` for a material that isn't known."""
    return tuple(_checked(tap, cutters, shop, material, class_name) for tap in cutters if goes_down(tap, Down.TAPPING))


def _checked(tap: Cutter, cutters: Sequence[Cutter], shop: Shop, material: str, class_name: str | None) -> TapChecked:
    try:
        reading = read_thread(tap.thread or "")
    except CribError as error:
        return TapChecked(tap, Verdict.MEASURE_FIRST, joined("; ", (error.finding.says, error.finding.fix or "")))
    hand = tap.hand if tap.hand == "left" else reading.hand
    alone = Reading(reading.thread, hand, reading.class_name, reading.notes)
    asking = Asking(alone, _class_for(reading, class_name), material)
    advice = advise_tap(asking, [c for c in cutters if not goes_down(c, Down.TAPPING) or c.id == tap.id], shop)
    serving = tuple(v for v in (*advice.drills, *advice.other_ways) if v.serves)[:_MOST_SERVING]
    stops = [w.says for w in advice.warnings if w.grade == Grade.STOP]
    return TapChecked(tap, advice.answer, stops[0] if stops else advice.says, reading.thread.designation, serving,
                      advice.not_owned, advice)


def _class_for(reading: Reading, class_name: str | None) -> str | None:
    """The class that was called, where this thread has it."""
    if class_name is None or class_name.lower() == "none":
        return class_name
    fits = reading.thread.is_unified if class_name[-1:].upper() == "B" else reading.thread.is_metric
    return class_name if fits else None
