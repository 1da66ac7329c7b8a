"""The questions that a crib remembers: listed, forgotten, asked again."""

from __future__ import annotations

from collections.abc import Sequence

from crib.app.asking import Reply, read
from crib.features import KINDS
from crib.findings.errors import CribError
from crib.findings.message import a
from crib.light.records import dataclass
from crib.planning.advise import advise
from crib.store import Change, Crib, PastQuestion
from crib.store.changes import undone_by


@dataclass(frozen=True)
class AskedAgain:
    """A question as it was answered then, and its answer of today; what was done `since` to what either goes by, and
    by which change each of those was undone."""

    then: PastQuestion
    reply: Reply
    since: tuple[Change, ...]
    undone: dict[int, int]


def listed(crib: Crib) -> tuple[list[PastQuestion], bool]:
    """The questions, the one asked last first, and whether more will be remembered."""
    return crib.questions(), crib.shop().remember_questions


def forget(crib: Crib, which: str) -> int:
    """Forget a question by its number, or `all`, for good; how many there were. Raises `CribError`."""
    if which != "all" and not (which.isascii() and which.isdigit()):
        raise CribError("usage", f"--forget {which!r} is neither a question's number nor all", which,
                        "crib asked lists them with their numbers")
    return crib.forget(None if which == "all" else int(which))


def again(crib: Crib, number: int, units: str | None = None) -> AskedAgain:
    """Ask a question once more, in the units that it was asked in where no others are wanted. Raises `CribError`."""
    then = crib.question(number)
    if then.kind not in KINDS:
        raise CribError("feature", f"question {then.id} is about {a(then.kind)}, which this version can't ask",
                        then.kind, "update the program in the way in which it was installed")
    enquiry = read(crib, then.kind, then.texts, then.units, units or then.units)
    reply = Reply(enquiry, advise(enquiry.request, enquiry.there.cutters, enquiry.shop))
    changes = crib.changes()
    return AskedAgain(then, reply, tuple(_since(changes, then, reply.past)), undone_by(changes))


def _since(changes: Sequence[Change], then: PastQuestion, now: PastQuestion) -> list[Change]:
    """What was done since to the shop, to its notes, and to the cutters of either answer."""
    subjects = {"shop", *(f"cutter {number}" for number in (*then.cutters, *now.cutters))}
    return [one for one in changes if one.id > then.change and one.what != "seen"
            and (one.subject in subjects or one.subject.startswith("note "))]
