"""A copy of the sample crib."""

from __future__ import annotations

import os
from itertools import count
from pathlib import Path

from crib.app.notes import note_price
from crib.app.opening import open_crib
from crib.findings.errors import CribError
from crib.intake.lists.files import read_file
from crib.planning.ask import texts_of
from crib.sample import folder, parts, prices, shop_settings
from crib.store.copies import is_the_same
from crib.store.family import left_overs, set_aside
from crib.store.where import beside

__all__ = ["copy", "texts_of"]


def copy(to: Path | None) -> tuple[Path, Path | None]:
    """Copy the sample crib to a new file, else into the data folder, where it is made anew each time; where it is, and
    the name under which what was changed in it before is kept. Raises `CribError` where the new file isn't new."""
    if to is not None:
        if to.exists():
            raise CribError("demo", f"{str(to)!r} is there already", str(to), "the name of a new file")
        _fill(to)
        return to, None
    place = beside("demo.db")
    place.parent.mkdir(parents=True, exist_ok=True)
    fresh = place.with_name(f".{place.name}.{os.getpid()}.new")
    try:
        _fill(fresh)
        kept = _kept(place) if place.exists() and not is_the_same(place, fresh) else None
        set_aside(place)
        os.replace(fresh, place)
        return place, kept
    finally:
        for left in (fresh, *left_overs(fresh), fresh.with_name(f".{fresh.name}.sound")):
            left.unlink(missing_ok=True)


def _kept(place: Path) -> Path:
    """The crib under another name, with what belongs to it."""
    names = (place.with_name(f"{place.stem}-{number}{place.suffix}") for number in count(1))
    kept = next(name for name in names if not name.exists())
    place.rename(kept)
    for left in left_overs(place):
        left.rename(kept.with_name(kept.name + left.name.removeprefix(place.name)))
    return kept


def _fill(place: Path) -> None:
    settings = shop_settings()
    reading = read_file(folder() / "cutters.json", settings["units"], settings["currency"])
    with open_crib(str(place), create=True) as crib, crib.transaction():
        crib.set_shop(settings)
        crib.take_in([one.cutter for one in reading.taken], None, [one.typed for one in reading.taken])
        crib.hold_back(reading.held_back)
        for seen in prices():
            note_price(crib, seen["price"], seen["words"], seen["where"], seen["seen"])
        for name, text in parts().items():
            crib.keep_part(name, text)
