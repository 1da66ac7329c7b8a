"""The crib itself: the cutters that are owned and the shop, with its books beside them."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.light.hints import TYPE_CHECKING, Any
from crib.light.modules import later
from crib.light.records import replace
from crib.shop import SETTINGS as KNOWN
from crib.shop import Shop, from_json
from crib.store import notes
from crib.store.books import Books
from crib.store.columns import CUTTER, CUTTER_READ, TABLES
from crib.store.database import Database, Row, insert
from crib.store.holdings import AWAY, NOTES, SETTINGS, THERE, Holdings, holdings
from crib.store.rows import as_read, as_said, as_text, from_row, from_rows, to_row, whole
from crib.store.seen import Seen
from crib.store.statements import LARGEST_ID, listed, now

if TYPE_CHECKING:
    from pathlib import Path

    from crib.store import changes as done
    from crib.store import find, meanwhile
    from crib.store import taken as come
    from crib.store.inflow import Inflow
    from crib.store.salvage import Salvaged
else:
    done, find, meanwhile, come = map(later, ("crib.store.changes", "crib.store.find", "crib.store.meanwhile",
                                              "crib.store.taken"))

_NONSENSE = (ValueError, TypeError, LookupError, AttributeError, ArithmeticError)


class Crib(Books):
    """An open crib. Every change of what is owned, of the shop and of what was held back is written down in the same
    transaction. Use it as a context.

    `units` are those that cutters are named in: those asked for, else the shop's.
    """

    def __init__(self, database: Database, units: str | None = None) -> None:
        super().__init__(database)
        self._seen = Seen()
        self._units = units

    def __enter__(self) -> Crib:
        return self

    def __exit__(self, _: object, error: BaseException | None, __: object) -> None:
        self.close()
        if isinstance(error, _NONSENSE):
            self._or_damaged(error)

    def _or_damaged(self, error: BaseException) -> None:
        """What a damaged file says need not make sense: then that is what is wrong. Raises `CribError`."""
        if (fault := getattr(self._database, "fault", "")) and self.path is not None:
            from crib.store.sqlite import damaged

            raise damaged(str(self.path), fault) from error

    def close(self) -> None:
        """Let go of the database."""
        self._database.close()

    @property
    def units(self) -> str:
        """The units that cutters are named in."""
        if self._units is None:
            self._units = self.shop().units
        return self._units

    def holdings(self) -> Holdings:
        """All that a question is answered from, read in one go."""
        found = holdings(self._database, self._units)
        self._units = self._units or found.shop.units
        return found

    def hurry(self, seconds: float) -> None:
        """From here on give up on a locked crib sooner."""
        self._database.hurry(seconds)

    @contextmanager
    def gathering(self, are_first: bool = False) -> Iterator[None]:
        """A transaction for many cutters and lines: what is added is written many rows at a time. `are_first`: they are
        the first in this crib."""
        from contextlib import nullcontext

        with self._database.gathering(), self._database.unindexed("cutter") if are_first else nullcontext():
            yield

    @property
    def path(self) -> Path | None:
        """The file that it is in; None for a shared crib."""
        from pathlib import Path

        named: str | None = getattr(self._database, "path", None)
        return named if named is None else Path(named)

    def counts(self) -> dict[str, int]:
        """How many rows each table has."""
        return {table: int(self._database.run(f"SELECT count(*) FROM {table}")[0][0]) for table in TABLES}

    def put_by(self, why: str) -> Path | None:
        """A copy beside the crib before something that rewrites much; None for a shared or an empty one."""
        from crib.store.copies import put_by

        return put_by(self.path, why) if self.path is not None and self.counts()["change"] else None

    def whole(self) -> dict[str, Any]:
        """Everything on record as one document."""
        from crib.store.whole import whole

        return whole(self._database)

    def fill(self, text: str, name: str) -> None:
        """Write a whole document into this crib, which must be empty. Raises `CribError`."""
        from crib.store.whole import put_back, read_whole

        put_back(self._database, read_whole(text, name))

    def salvage_from(self, path: Path) -> list[Salvaged]:
        """Write into this crib, which must be empty, what can be read of a damaged file. Raises `CribError`."""
        from crib.store.salvage import salvage

        return salvage(path, self._database)

    def cutters(self) -> list[Cutter]:
        """Every cutter that is there, by id; those with a count of 0 are missing and not among them."""
        versions: dict[int, int] = {}
        cutters = from_rows(self._database.each(THERE), self.units, versions)
        self._seen.all_of(cutters, versions)
        return cutters

    def away(self) -> list[Cutter]:
        """Every cutter of which something is lent, lost or scrapped, by id."""
        return from_rows(self._database.each(AWAY), self.units)

    def newest(self) -> Cutter | None:
        """The cutter that was taken in last; None where there is none."""
        rows = self._database.run(f"SELECT {listed(CUTTER)} FROM cutter ORDER BY id DESC LIMIT 1")
        return from_row(rows[0], self.units) if rows else None

    def in_places(self, under: str | None = None) -> list[Cutter]:
        """Cutters by where they lie, those whose place begins with `under`; all that have a place without it."""
        from crib.store.sieve import escaped

        rows = self._database.run(
            f"SELECT {listed(CUTTER_READ)} FROM cutter WHERE drawer IS NOT NULL "
            "AND lower(drawer) LIKE :under ESCAPE '!' ORDER BY drawer, id",
            {"under": escaped((under or "").lower()) + "%"})
        return from_rows(rows, self.units)

    def cutter(self, number: int) -> Cutter:
        """The cutter with an id. Raises `CribError` where there is none."""
        return self._read(self._row(number))

    def typed(self, number: int) -> dict[str, str]:
        """What was typed for a cutter's lengths, by field. Raises `CribError` where there is no such cutter."""
        return dict(json.loads(self._row(number)[CUTTER.index("typed")]))

    def find(self, words: Sequence[str] | find.Wanted, most: int | None = None) -> find.Found:
        """The cutters that fit all the words, best first; all of them where there are no words. Where so many at the
        `most` are shown, others of which none is better may only be counted."""
        wanted = words if isinstance(words, find.Wanted) else find.plainly(words, self.units)
        return find.search(self._database, wanted, self.units, most)

    def take_in(
        self, cutters: Iterable[Cutter], source: str | None = None, typed: Sequence[Mapping[str, str]] = ()
    ) -> list[Cutter]:
        """Add cutters, all or none; as they were stored, with their ids. `typed` goes cutter by cutter."""
        taken, at, by = [], now(), self._database.by()
        with self.transaction():
            for place, cutter in enumerate(cutters):
                row = to_row(cutter, source, typed[place] if place < len(typed) else {})
                number = self._database.add("cutter", row)
                stored = as_read(cutter, row, number, self.units)
                if not self._database.gathers:  # of many none is kept in mind: nobody else can write meanwhile
                    self._seen[number] = 1, stored
                done.note(self._database, "take-in", f"cutter {number}", None, as_said(stored) | _source(source),
                          at=at, by=by)
                taken.append(stored)
        return taken

    @contextmanager
    def inflow(self, source: str | None = None, is_first: bool = False) -> Iterator[Inflow]:
        """What many cutters are taken in by, all or none, none of which is kept in memory. `is_first`: they are the
        first in this crib."""
        from contextlib import nullcontext

        from crib.store.inflow import Inflow

        with self.gathering(), self._database.unindexed("cutter", "change") if is_first else nullcontext():
            yield Inflow(self._database, source, self.units)

    def amend(self, cutter: Cutter, typed: Mapping[str, str | None] | None = None, undoes: int | None = None) -> Cutter:
        """Put a cutter in the place of the one with its id; as it was stored. What was typed for a field goes in the
        place of what was, None for nothing. Only what is other is written. Raises `CribError`, also where somebody
        else changed the cutter since this crib gave it out."""
        with self.transaction():
            old = self._row(cutter.id)
            before, version = from_row(old, self.units), int(old[CUTTER.index("version")])
            if cutter.id in self._seen and self._seen[cutter.id][0] != version:
                raise self._changed_meanwhile(cutter, version)
            was_typed = dict(json.loads(old[CUTTER.index("typed")]))
            kept = {key: text for key, text in (was_typed | dict(typed or {})).items() if text is not None}
            row = to_row(whole(cutter), old[CUTTER.index("came_from")], kept)
            self._write(cutter, {column: value for column, value in row.items()
                                 if value != old[CUTTER.index(column)]}, version)
            after = self.cutter(cutter.id)
            was, now = _differences(before, after)
            if now or kept != was_typed:
                for side, texts in ((was, was_typed), (now, kept)):
                    side["typed"] = {key: texts.get(key) for key in typed or {} if was_typed.get(key) != kept.get(key)}
                done.note(self._database, "amend", f"cutter {cutter.id}", was, now, undoes)
        return after

    def _write(self, cutter: Cutter, row: Mapping[str, Any], version: int) -> None:
        """Put values into the row of a cutter that is still as it was."""
        if not row:
            return
        settings = ", ".join(f'"{column}" = :{column}' for column in row)
        if not self._database.run(f"UPDATE cutter SET {settings}, version = version + 1 "
                                  "WHERE id = :id AND version = :version RETURNING id",
                                  {**row, "id": cutter.id, "version": version}):
            raise self._changed_meanwhile(cutter, version + 1)

    def _changed_meanwhile(self, cutter: Cutter, version: int) -> CribError:
        seen, was = self._seen.get(cutter.id, (version - 1, cutter))
        amended = [one for one in self.history(cutter.id) if one.what == "amend"]
        return meanwhile.changed(cutter.id, amended[seen - version:], _differences(was, cutter)[1], self.units)

    def as_taken_in(self, cutter: Cutter) -> dict[str, Any]:
        """What is written down of a cutter that is taken in, but for its number."""
        return dict(json.loads(as_text(as_said(whole(cutter)))))

    def arrivals(self) -> Iterator[come.Arrival]:
        """Every cutter that was taken in and every line that was held back, oldest first."""
        return come.arrivals(self._database)

    def shop(self) -> Shop:
        """The shop's settings, defaults where nothing was said, and what the owner's own results come to."""
        settings, rows = self._database.read(SETTINGS, NOTES)
        own = notes.own(notes.from_row(row) for row in rows)
        return replace(from_json({name: json.loads(value) for name, value in settings}), own=own)

    def set_shop(self, changes: Mapping[str, Any], undoes: int | None = None) -> Shop:
        """Change settings, by the names of `Shop`; the whole shop after it."""
        unknown = [name for name in changes if name not in KNOWN]
        if unknown:
            raise CribError("setting", f"{unknown[0]!r} is not a setting of the shop", unknown[0],
                            "crib shop shows them")
        with self.transaction():
            before = self.shop().as_json()
            for name, value in changes.items():
                self._database.run("DELETE FROM setting WHERE name = :name", {"name": name})
                insert(self._database, "setting", {"name": name, "value": as_text(value)})
            after = self.shop()
            done.note(self._database, "shop", "shop", {name: before[name] for name in changes}, dict(changes), undoes)
        return after

    def take_back(self, number: int, undoes: int | None = None) -> Cutter:
        """Take a cutter out again, as if it had not been taken in; what it was stays written down."""
        with self.transaction():
            cutter, row = self.cutter(number), dict(zip(CUTTER, self._row(number), strict=True))
            taken = [change.id for change in self.history(number) if change.what == "take-in"]
            self._database.run("DELETE FROM cutter WHERE id = :id", {"id": number})
            was = as_said(cutter) | _source(row["came_from"]) | {"typed": json.loads(row["typed"])}
            done.note(self._database, "take-back", f"cutter {number}", was, {},
                      undoes or (taken[-1] if taken else None))
        return cutter

    def put_back(self, cutter: Cutter, source: str | None, typed: Mapping[str, str], undoes: int) -> Cutter:
        """Take in again, under its own number, a cutter that was taken back."""
        with self.transaction():
            insert(self._database, "cutter", {"id": cutter.id} | to_row(whole(cutter), source, typed))
            stored = self.cutter(cutter.id)
            done.note(self._database, "take-in", f"cutter {cutter.id}", None, as_said(stored) | _source(source), undoes)
        return stored

    def saw(self, number: int, what: str = "seen") -> None:
        """Write down that a cutter was found in its place."""
        with self.transaction():
            self.cutter(number)
            done.note(self._database, what, f"cutter {number}", None, {})

    def _read(self, row: Row) -> Cutter:
        """A cutter that is given out: as it was when it was read it must be when it is changed."""
        cutter = from_row(row, self.units)
        self._seen[cutter.id] = row[CUTTER.index("version")], cutter
        return cutter

    def _row(self, number: int) -> Row:
        rows = []
        if 0 < number <= LARGEST_ID:
            rows = self._database.run(f"SELECT {listed(CUTTER)} FROM cutter WHERE id = :id", {"id": number})
        if not rows:
            raise CribError("no-cutter", f"there is no cutter {number} in the crib", str(number),
                            "crib find lists them with their numbers")
        return rows[0]

def _source(source: str | None) -> dict[str, str]:
    return {"from": source} if source else {}


def _differences(before: Cutter, after: Cutter) -> tuple[dict[str, Any], dict[str, Any]]:
    """What changed, as it was and as it is; under `known` how each value was and is known, where either changed."""
    from crib.cutters.known import known

    was, now = before.as_json(), after.as_json()
    changed = [key for key in now if was.get(key) != now[key]]
    if not changed:
        return {}, {}
    hows = known(before), known(after)
    keys = [key for key in dict.fromkeys((*hows[0], *hows[1]))
            if key in changed or hows[0].get(key) != hows[1].get(key)]
    sides = [{key: side.get(key) for key in changed} for side in (was, now)]
    for side, how in zip(sides, hows, strict=True):
        side["known"] = {key: how.get(key) for key in keys}
    return sides[0], sides[1]
