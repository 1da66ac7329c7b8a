"""Whether a hole belongs to a tap: by the class where there is one, else by the percent of thread."""

from __future__ import annotations

from crib.findings.message import Mm, Text, a, said
from crib.findings.verdicts import Verdict
from crib.handbook.materials import Material
from crib.handbook.tapping import BREAKS_ABOVE, FORMING_WINDOW, IMPOSSIBLE_ABOVE, TOO_WEAK_BELOW, WEAK_BELOW, Target
from crib.handbook.threads import HoleLimits, Thread, forming_hole, forming_percent, hole_for, percent_of
from crib.handbook.threads.percent import small_end
from crib.light.records import dataclass, field
from crib.machining.holes import Hole
from crib.machining.words import Making
from crib.shop import Own
from crib.tapping.shape import JudgedHole
from crib.units import read

THOU = 0.0254
EDGE_MM = 0.5 * THOU
"""A hole expected this near to the most that the class allows is tried in scrap first."""

_FORMING_MOST = 75.0
_NUMBER_8_MM = 0.164 * 25.4
_PIPE_NEAR = 4 * THOU
_EDGE_PENALTY, _WORN = 5.0, {"used": 3.0, "unknown": 3.0, "dull": 8.0}


@dataclass(frozen=True)
class Case:
    """What holes are judged for."""

    thread: Thread
    limits: HoleLimits
    target: Target
    material: Material
    forming: bool
    own: Own = field(default_factory=Own)
    called: bool = False

    @property
    def window(self) -> tuple[float, float]:
        """The holes that may be recommended, from and to [mm]."""
        if self.thread.taper:
            return pipe_window(self.thread)
        if self.forming:
            return forming_hole(self.thread, FORMING_WINDOW[1]), forming_hole(self.thread, FORMING_WINDOW[0])
        if self.limits.least is not None and self.limits.most is not None:
            return self.limits.least, self.limits.most
        return hole_for(self.thread, BREAKS_ABOVE), hole_for(self.thread, WEAK_BELOW)

    @property
    def aim(self) -> float:
        """The hole to aim at: the middle of the target, or as near to it as the window allows [mm]."""
        low, high = self.window
        if self.thread.taper or self.forming:
            return (low + high) / 2
        return min(max(hole_for(self.thread, self.target.middle), low), high)


def fine(mm: float) -> Mm:
    """A length as finely as a class is printed: four places of an inch, three of a millimetre."""
    return Mm(mm, fine=True)


def pipe_window(thread: Thread) -> tuple[float, float]:
    """The drills for a taper pipe thread without a taper reamer: round the listed one [mm]."""
    listed = read(thread.drill or "", "in").mm
    return listed - _PIPE_NEAR, listed + _PIPE_NEAR


def chart_drill(case: Case) -> float | None:
    """The drill that charts give for a cutting tap [mm], None where none was found."""
    if not case.thread.drill or case.forming:
        return None
    return read(case.thread.drill, "in").mm


def judge(case: Case, hole: Hole) -> JudgedHole:
    """The verdict on one hole."""
    if hole.cutter and hole.cutter.condition in ("chipped", "burnt", "bent"):
        return _verdict(case, hole, Verdict.CANNOT, said("{condition}: no hole to size with it",
                                                         condition=hole.cutter.condition))
    if case.thread.taper:
        return _pipe(case, hole)
    if hole.diameter_mm >= case.thread.major_mm - 1e-6:
        same = hole.diameter_mm <= case.thread.major_mm + 1e-6
        how = "as large as the thread itself" if same else "larger than the thread itself"
        return _verdict(case, hole, Verdict.CANNOT, said("{how}, {major}: nothing is left to cut", how=how,
                                                         major=fine(case.thread.major_mm)))
    return _forming(case, hole) if case.forming else _cutting(case, hole)


def _cutting(case: Case, hole: Hole) -> JudgedHole:
    real = percent_of(case.thread, hole.expected_mm)
    made = said("hole {expected} expected, {real:.0f} percent", expected=fine(hole.expected_mm), real=real)
    low, high = case.limits.least, case.limits.most
    if low is None or high is None:
        return _by_percent(case, hole, real, made)
    if hole.expected_mm > high + 1e-6 or hole.expected_mm < low - 1e-6:
        return _outside(case, hole, real, low, high)
    inside = said("inside {name}, {low} to {high}", name=case.limits.name or "", low=fine(low), high=fine(high))
    if high - hole.expected_mm <= EDGE_MM + 1e-6:
        edge = "but at its edge: a trial hole in scrap first"
        return _verdict(case, hole, _answer(hole), said("{made}: {inside}, {edge}", made=made, inside=inside,
                                                        edge=edge), True)
    if (stop := _breaks(case, real)) is not None:
        return _verdict(case, hole, stop[0], said("{made}: {inside}, but {stop}", made=made, inside=inside,
                                                  stop=stop[1]))
    return _verdict(case, hole, _answer(hole), said("{made}: {inside}", made=made, inside=inside))


def _outside(case: Case, hole: Hole, real: float, low: float, high: float) -> JudgedHole:
    """A hole that is expected outside the limits of a class: refused where the class is called and the whole range
    that is expected misses it; tried in scrap first where the class is called and it may still come out inside; judged
    by its percent, the miss told, where none is called."""
    above = hole.expected_mm > high
    surely = hole.low_mm > high + 1e-6 if above else hole.high_mm < low - 1e-6
    most, limit = ("most" if above else "least"), (high if above else low)
    by = fine(abs(hole.expected_mm - limit))
    miss = said("{by} {side} the {most} that {name} allows, {limit}", by=by, side='above' if above else 'below',
                most=most,
                name=case.limits.name or "", limit=fine(limit))
    span = said("{low} to {high}", low=fine(hole.low_mm), high=fine(hole.high_mm))
    made = said("hole {expected} expected ({span}), {real:.0f} percent", expected=fine(hole.expected_mm), span=span,
                real=real)
    size = "smaller" if above else "larger"
    sure = said("measure a hole in scrap: {limit} or {side} will do; else a {size} drill", limit=fine(limit),
                side='less' if above else 'more', size=size)
    if case.called and surely:
        return _verdict(case, hole, Verdict.CANNOT, said("{made}: surely outside, {miss}", made=made,
                                                         miss=miss), fix=a(f"{size} drill"))
    if case.called:
        return _verdict(case, hole, Verdict.MEASURE_FIRST, said("{made}: likely {miss}; {sure}", made=made, miss=miss,
                                                                sure=sure), True, fix=sure)
    judged = _by_percent(case, hole, real, made)
    if judged.answer == Verdict.CANNOT:
        return judged
    if surely:
        answer, says = Verdict.COMPROMISE, said("{made}: surely {miss}; no class was called, so that is yours to "
                                                "choose",
                                                made=made, miss=miss)
    else:
        answer, says = judged.answer, said("{made}: likely {miss}; no class was called, so it does. To be sure of it "
                                           "{sure}", made=made, miss=miss, sure=sure)
    return _verdict(case, hole, answer, says, True, fix=sure)


def _by_percent(case: Case, hole: Hole, real: float, made: Text) -> JudgedHole:
    if real > IMPOSSIBLE_ABOVE:
        return _verdict(case, hole, Verdict.CANNOT, said("{made}: above {impossible_above:g} the tap can't go "
                                                         "in", made=made,
                                                         impossible_above=IMPOSSIBLE_ABOVE))
    if (stop := _breaks(case, real)) is not None:
        return _verdict(case, hole, stop[0], said("{made}: above {breaks_above:g}, {stop}", made=made,
                                                  breaks_above=BREAKS_ABOVE, stop=stop[1]))
    if real < TOO_WEAK_BELOW:
        return _verdict(case, hole, Verdict.CANNOT, said("{made}: below {too_weak_below:g} it holds nothing", made=made,
                                                         too_weak_below=TOO_WEAK_BELOW))
    if real < WEAK_BELOW:
        return _verdict(case, hole, Verdict.COMPROMISE, said("{made}: weak, not for a load", made=made))
    return _verdict(case, hole, _answer(hole), made)


def _breaks(case: Case, real: float) -> tuple[Verdict, str] | None:
    if real <= BREAKS_ABOVE:
        return None
    small = case.thread.major_mm < _NUMBER_8_MM - 1e-6 and case.material.group in ("steel", "stainless", "titanium")
    if small:
        return Verdict.CANNOT, "so small a tap breaks in it"
    return Verdict.COMPROMISE, "the tap is apt to break in it"


def _forming(case: Case, hole: Hole) -> JudgedHole:
    percent = forming_percent(case.thread, hole.expected_mm)
    made = said("hole {expected} expected, {percent:.0f} percent formed", expected=fine(hole.expected_mm),
                percent=percent)
    low, high = case.window
    right = said("a forming tap wants {low} to {high}", low=fine(low), high=fine(high))
    if percent > 100:
        return _verdict(case, hole, Verdict.CANNOT, said("{made}: a cutting tap's hole, in which a forming tap jams "
                                                         "and breaks; {right}", made=made, right=right))
    if percent > _FORMING_MOST or percent < FORMING_WINDOW[0] - 5:
        return _verdict(case, hole, Verdict.CANNOT, said("{made}: {right}", made=made, right=right))
    if low - 1e-6 <= hole.expected_mm <= high + 1e-6:
        return _verdict(case, hole, _answer(hole), said("{made}: inside {low} to {high}", made=made, low=fine(low),
                                                        high=fine(high)))
    return _verdict(case, hole, Verdict.COMPROMISE, said("{made}: outside what is usual, "
                                                         "{right}", made=made, right=right))


def _pipe(case: Case, hole: Hole) -> JudgedHole:
    low, high = case.window
    root = small_end(case.thread) - 0.8 * case.thread.pitch_mm
    listed = f"the list gives {case.thread.drill}"
    if low <= hole.diameter_mm <= high:
        return _verdict(case, hole, _answer(hole), said("{diameter}: {listed}, without a taper reamer",
                                                        diameter=fine(hole.diameter_mm), listed=listed))
    if root - _PIPE_NEAR <= hole.diameter_mm < low:
        return _verdict(case, hole, Verdict.EXTRA_PASSES, said("{diameter}: ream it 1 in 16 first; {listed} without a "
                                                               "taper reamer", diameter=fine(hole.diameter_mm),
                                                                                       listed=listed))
    how = "too small, the tap would jam" if hole.diameter_mm < root else "too large, the thread would leak"
    return _verdict(case, hole, Verdict.CANNOT, said("{diameter}: {how}; "
                                                     "{listed}", diameter=fine(hole.diameter_mm), how=how,
                                                     listed=listed))


def _answer(hole: Hole) -> Verdict:
    return Verdict.AS_DRAWN if hole.way is Making.DRILL else Verdict.EXTRA_PASSES


def _verdict(case: Case, hole: Hole, answer: Verdict, says: Text, edge: bool = False, fix: Text = "") -> JudgedHole:
    forming = case.forming
    none_left = bool(case.thread.taper) or hole.diameter_mm >= case.thread.major_mm - 1e-6
    percent = forming_percent if forming else percent_of
    score = abs(hole.expected_mm - case.aim) / (0.01 * case.thread.form.percent_factor * case.thread.pitch_mm)
    worn = _WORN.get(hole.cutter.condition if hole.cutter else "sharp", 0.0)
    score += _EDGE_PENALTY * edge + worn + hole.extra_minutes
    return JudgedHole(
        hole=hole,
        forming=forming,
        percent_thread=None if none_left else percent(case.thread, hole.diameter_mm),
        percent_expected=None if none_left else percent(case.thread, hole.expected_mm),
        within_class=None if forming else case.limits.holds(hole.expected_mm),
        within_class_by_size=None if forming else case.limits.holds(hole.diameter_mm),
        answer=answer,
        says=says if not hole.before else said("{before} first, then this: {says}", before=hole.before, says=says),
        score=score,
        edge=edge,
        fix=fix,
    )
