"""The questions that were asked, so that they can be asked again and counted. One that is asked again is the same
question, asked once more."""

from __future__ import annotations

import json
from collections.abc import Mapping

from crib.findings.errors import CribError
from crib.light.hints import Any
from crib.light.records import asdict, dataclass
from crib.store.columns import QUESTION
from crib.store.database import Database, Row, insert
from crib.store.rows import as_text
from crib.store.statements import LARGEST_ID, listed, now, who

_PLAN = ("cost", "currency", "minutes", "cutters", "change")


@dataclass(frozen=True)
class PastQuestion:
    """A question that was asked of the crib, and what came of it the last time.

    `texts`: what was typed, by key, as `crib.planning.ask.read_request` takes it, in `units`. `answer`: the verdict.
    `cost` in `currency`, `minutes` and `cutters` (ids) are the best plan's; None and empty where there was none.
    `times`: how often it was asked, from `first_at` to `at`; `who` asked it last. `change`: the last change of
    the crib before it was answered.
    """

    kind: str
    texts: Mapping[str, str]
    units: str
    answer: str
    cost: float | None = None
    currency: str | None = None
    minutes: float | None = None
    cutters: tuple[int, ...] = ()
    id: int = 0
    first_at: str = ""
    at: str = ""
    who: str = ""
    times: int = 1
    change: int = 0

    def as_json(self) -> dict[str, Any]:
        """Every field under its own name."""
        return asdict(self) | {"texts": dict(self.texts), "cutters": list(self.cutters)}


def _after(last: str | None) -> str:
    """Now, but later than the last question: what was asked last stays so where the clock was set back."""
    here = now()
    if last is None or last < here:
        return here
    from datetime import datetime, timedelta

    return (datetime.fromisoformat(last) + timedelta(seconds=1)).isoformat(timespec="seconds")


def remember(database: Database, asked: PastQuestion, last: str | None, far: bool = False) -> int:
    """Write a question down, or that it was asked again with the answer of today; its number. `last`: when the last one
    was asked. A server is asked once, outside a transaction too; numbers have no gaps where nobody else asks the same
    at the same moment."""
    plan = {key: getattr(asked, key) for key in _PLAN}
    texts = {key: text.strip() for key, text in asked.texts.items()}
    same = {"kind": asked.kind, "texts": as_text(texts), "units": asked.units}
    latest = {"at": _after(last), "who": who(), "answer": asked.answer, "plan": as_text(plan)}
    new = {**same, **latest, "first_at": latest["at"]}
    update = (f"UPDATE question SET times = times + 1, {', '.join(f'{column} = :{column}' for column in latest)} "
              "WHERE kind = :kind AND texts = :texts AND units = :units RETURNING id")
    if far:
        return int(database.run(f"WITH again AS ({update}), made AS ({_insert(new)}) "
                                "SELECT id FROM again UNION ALL SELECT id FROM made", new)[0][0])
    found = database.run(update, same | latest) or insert(database, "question", {**new, "times": 1}, "RETURNING id")
    return int(found[0][0])


def _insert(new: Mapping[str, str]) -> str:
    """For a question that isn't among those asked again; nor among those that somebody else asks just now."""
    slots = ", ".join(f":{column}" for column in new)
    settings = ", ".join(f"{column} = excluded.{column}" for column in ("at", "who", "answer", "plan"))
    return (f"INSERT INTO question ({listed(new)}, times) SELECT {slots}, 1 WHERE NOT EXISTS (SELECT 1 FROM again) "
            f"ON CONFLICT (kind, texts, units) DO UPDATE SET times = question.times + 1, {settings} RETURNING id")


def all_of(database: Database) -> list[PastQuestion]:
    """Every question that is remembered, the one asked last first."""
    rows = database.run(f"SELECT {listed(QUESTION)} FROM question ORDER BY at DESC, id DESC")
    return [_question(row) for row in rows]


def one_of(database: Database, number: int) -> PastQuestion:
    """The question with a number. Raises `CribError` where there is none."""
    rows = []
    if 0 < number <= LARGEST_ID:
        rows = database.run(f"SELECT {listed(QUESTION)} FROM question WHERE id = :id", {"id": number})
    if not rows:
        raise CribError("no-question", f"no question {number} is remembered", str(number),
                        "crib asked lists them with their numbers")
    return _question(rows[0])


def forget(database: Database, number: int | None) -> int:
    """Forget a question for good, or all of them; how many there were. Raises `CribError` where there is no such."""
    if number is None:
        return len(database.run("DELETE FROM question RETURNING id"))
    database.run("DELETE FROM question WHERE id = :id", {"id": one_of(database, number).id})
    return 1


def _question(row: Row) -> PastQuestion:
    values = dict(zip(QUESTION, row, strict=True))
    plan = json.loads(values.pop("plan"))
    values["texts"] = json.loads(values["texts"])
    known = {key: plan[key] for key in _PLAN if key in plan}
    return PastQuestion(**values, **known | {"cutters": tuple(known.get("cutters") or ())})
