"""What came of it in this shop: minutes that a job took, what a hole measured."""

from __future__ import annotations

from crib.findings.errors import CribError
from crib.intake.results import check_minutes, read_hole, read_minutes
from crib.light.records import dataclass, replace
from crib.shop import Own
from crib.store import Crib, Note, PastQuestion
from crib.store.notes import hole_note, time_note


@dataclass(frozen=True)
class Results:
    """What was told so far, and what it comes to."""

    notes: list[Note]
    own: Own


def results(crib: Crib) -> Results:
    """What was told so far."""
    return Results(crib.notes("time", "hole"), crib.shop().own)


def took(crib: Crib, minutes: str, question: int = 0) -> None:
    """Note how long a job took: a question's by its number, else the one asked last. Raises `CribError`."""
    real = read_minutes(minutes)
    job = _question(crib, question)
    reckoned = _reckoned(crib, job)
    check_minutes(real, reckoned, minutes)
    crib.write_down(time_note(minutes.strip(), job.id, reckoned, real))


def measured(crib: Crib, hole: str, drill: str = "", cutter: int = 0) -> None:
    """Note what a hole measured that a drill made: a drill by its size, or by its number in the crib. Raises
    `CribError`."""
    if bool(drill) == bool(cutter):
        raise CribError("usage", "say which drill: its size or its number, one of them", hole,
                        "--drill '#7', or --cutter 47")
    owned = crib.cutter(cutter) if cutter else None
    sizes = read_hole(hole, drill, crib.units, owned)
    words = f"{hole.strip()} with {owned.label if owned else drill.strip()}"
    crib.write_down(hole_note(words, *sizes, owned.id if owned else None))


def take_back(crib: Crib, number: int = 0) -> None:
    """Take a result back: by its number, else the last. Raises `CribError` where there is none."""
    told = crib.notes("time", "hole")
    if not number and not told:
        raise CribError("no-note", "no result was told so far", "", "crib result time, or crib result hole, tells one")
    crib.cross_out(number or max(note.id for note in told), "time", "hole")


def _question(crib: Crib, number: int) -> PastQuestion:
    if number:
        return crib.question(number)
    past = [one for one in crib.questions() if one.minutes]
    if not past:
        raise CribError("no-question", "no question with a plan is remembered", "", "ask it first: crib make ...")
    return past[0]


def _reckoned(crib: Crib, job: PastQuestion) -> float:
    """The minutes of a question's best plan as it is answered today, at the program's own pace."""
    from crib.planning.advise import advise
    from crib.planning.ask import read_request

    shop = crib.shop()
    shop = replace(shop, units=job.units, own=Own(holes=shop.own.holes))
    advice = advise(read_request(job.kind, job.texts, shop, job.units), crib.cutters(), shop, most=1).advice
    if not advice.plans:
        raise CribError("no-plan", f"question {job.id} has no plan today: {advice.answer}", str(job.id),
                        "--question N of one that has")
    return advice.plans[0].minutes
