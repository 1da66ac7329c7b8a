"""`crib demo`: a copy of the sample crib, and its first question answered."""

from __future__ import annotations

import os
import shlex
from dataclasses import replace
from itertools import count
from pathlib import Path
from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.make import answer
from crib.cli.status import Status
from crib.findings.errors import CribError


def demo(
    ctx: typer.Context,
    into: Annotated[Path | None, typer.Option("--into", help="A file for the copy; else in your data folder")] = None,
) -> Status:
    """Copy the sample crib, and answer its T-slot question from it."""
    from crib.planning.ask import texts_of
    from crib.sample import questions
    from crib.store.where import beside

    asked: Asked = ctx.obj
    place = into or (Path(asked.crib) if asked.crib else beside("demo.db"))
    if (into or asked.crib) and place.exists():
        raise CribError("demo", f"{str(place)!r} is there already", str(place), "the name of a new file")
    _copy(place, ours=not (into or asked.crib))
    here = replace(asked, crib=str(place))
    first, *others = questions()
    out.note(f"the sample crib is copied to {place}")
    if not asked.json:
        out.answer(asked, None, [first.says, ""])
    status = answer(here, first.make[0], texts_of(first.make[1:]))
    if not asked.json:
        out.answer(asked, None, _more(place, [one.make for one in others]))
    return status


def _copy(place: Path, ours: bool) -> None:
    """Make the copy. The one in the data folder is made anew each time; what was changed in it is kept beside it."""
    from crib.store.copies import is_the_same
    from crib.store.family import left_overs, set_aside

    if not ours:
        return _fill(place)
    place.parent.mkdir(parents=True, exist_ok=True)
    fresh = place.with_name(f".{place.name}.{os.getpid()}.new")
    try:
        _fill(fresh)
        if place.exists() and not is_the_same(place, fresh):
            names = (place.with_name(f"{place.stem}-{number}{place.suffix}") for number in count(1))
            kept = next(name for name in names if not name.exists())
            place.rename(kept)
            for beside in left_overs(place):
                beside.rename(kept.with_name(kept.name + beside.name.removeprefix(place.name)))
            out.note(f"what you changed in the sample crib is kept as {kept}")
        set_aside(place)
        os.replace(fresh, place)
    finally:
        for left in (fresh, *left_overs(fresh), fresh.with_name(f".{fresh.name}.sound")):
            left.unlink(missing_ok=True)


def _fill(place: Path) -> None:
    from crib.cli.price import note_price
    from crib.intake.files import read_file
    from crib.sample import folder, prices, shop_settings
    from crib.store import open_crib

    settings = shop_settings()
    reading = read_file(folder() / "cutters.json", settings["units"], settings["currency"])
    with open_crib(str(place), create=True) as crib, crib.transaction():
        crib.set_shop(settings)
        crib.take_in([one.cutter for one in reading.taken], None, [one.typed for one in reading.taken])
        crib.hold_back(reading.held_back)
        for seen in prices():
            note_price(crib, seen["price"], seen["words"], seen["where"], seen["seen"])


def _more(place: Path, questions: list[tuple[str, ...]]) -> list[str]:
    lines = ["", "More to ask of this crib:", f"  export CRIB_DB={shlex.quote(str(place))}", "  crib find"]
    lines += ["  crib make " + shlex.join(words) for words in questions]
    return [*lines, "Then, what all of them together deserve:", "  crib wish-list --budget 60"]
