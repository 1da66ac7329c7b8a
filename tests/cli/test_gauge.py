"""Naming what isn't marked: whatever a standard lets a thing measure, new or worn, is named; what is named fits; and
where nothing fits it is said by how much."""

from __future__ import annotations

import csv
from pathlib import Path
from random import Random

import pytest

from crib.app.gauge import gauge as asked
from crib.cutters.gauged import Candidate, Measured
from crib.handbook.drill_sizes import drill_names
from crib.handbook.threads import Thread, threads
from crib.handbook.threads.outside import screw_limits
from crib.handbook.woodruff import keyseat_cutters
from crib.planning.gauge import Named, gauge, gauged
from crib.units import read
from tests.cli.conftest import Crib

INCH = 25.4
ROWS = list(csv.DictReader((Path(__file__).parents[1] / "data" / "gauged.csv").open(encoding="utf-8")))
STANDARD = ("UNC", "UNF", "UNEF", "ISO coarse", "ISO fine", "BSW", "BSF", "BA")
WORN_MM, READ_MM = 0.003 * INCH, 0.0005 * INCH
SCREWS = [one for one in threads() if one.series in STANDARD]


def labels(found: Named) -> list[str]:
    return [str(one.label) for one in found.candidates]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["measured"])
def test_old_screws_drills_and_cutters(row: dict[str, str], crib: Crib) -> None:
    """Each with where its identity is from. Read as at the bench: `among` the candidates, `first` of them, or `tied`
    with the first."""
    found = crib("gauge", *row["measured"].split(), "--json")
    assert found.status == 0, found.out + found.err
    told = [(one["kind"], one["label"]) for one in found.json["candidates"]]
    wanted = row["kind"], row["label"]
    assert wanted in told
    if row["place"] == "first":
        assert told[0] == wanted
    if row["place"] == "tied":
        offs = [one["off_mm"] for one in found.json["candidates"]]
        assert offs[told.index(wanted)] == offs[0]


def least(thread: Thread) -> float:
    """What a screw measures at the least, worn by .003 or a tenth of its pitch."""
    return screw_limits(thread).least - min(WORN_MM, 0.1 * thread.pitch_mm)


def apart(thread: Thread, size: float) -> float:
    """How far a size is outside a thread's class, as far as calipers read."""
    limits = screw_limits(thread)
    return round(max(0.0, limits.least - size - READ_MM, size - limits.most - READ_MM), 9)


@pytest.mark.parametrize("thread", SCREWS, ids=lambda one: one.designation)
def test_a_worn_screw_is_named_by_its_thread(thread: Thread) -> None:
    """Any wear from new to well below its class: it is named first, or behind standard threads alone whose own class
    holds the size at least as well."""
    limits = screw_limits(thread)
    for share in (0.0, 0.31, 1.0):
        size = least(thread) + share * (limits.most - least(thread))
        found = gauge(Measured(diameter_mm=size, pitch_mm=thread.pitch_mm), "screw")
        names = [name.removesuffix(" screw") for name in labels(found)]
        place = next(at for at, name in enumerate(names) if same(name, thread))
        for name in names[:place]:
            other = of_name(name)
            assert other.series != "special" and abs(other.pitch_mm - thread.pitch_mm) < 0.011, names
            assert apart(other, size) <= apart(thread, size), (thread.designation, size, names)


def of_name(name: str) -> Thread:
    return next(one for one in threads() if one.designation == name)


def same(name: str, thread: Thread) -> bool:
    return of_name(name).same_as(thread)


def test_every_drill_is_named_by_all_its_names() -> None:
    """A half thou either way, and worn three under."""
    for mm, name in drill_names():
        for off in (-0.003, -0.0005, 0.0, 0.0005):
            found = gauge(Measured(diameter_mm=mm + off * INCH), "drill")
            assert f"{name} drill" in labels(found), (name, off)
        over = gauge(Measured(diameter_mm=mm + 0.0016 * INCH), "drill")
        assert f"{name} drill" not in labels(over), "a drill is never over its size"


def test_every_keyseat_cutter_is_named_by_its_number() -> None:
    for one in keyseat_cutters():
        for off in (0.0, 0.012, -0.015):
            found = gauge(Measured(diameter_mm=one.diameter_mm + off * INCH, width_mm=one.width_mm), "keyseat-cutter")
            assert f"{one.number} keyseat cutter" in labels(found), (one, off)


def sweep(rng: Random) -> tuple[Measured, str | None]:
    """Something that was measured of something."""
    kind = rng.choice((None, *gauged()))
    across = rng.uniform(0.5, 60.0)
    measured = Measured(
        diameter_mm=across, width_mm=rng.choice((None, rng.uniform(0.3, 20.0))),
        pitch_mm=rng.choice((None, INCH / rng.choice((11, 18, 20, 24, 32, 37)), rng.uniform(0.2, 3.0))),
        angle_deg=rng.choice((None, rng.uniform(20.0, 150.0))), hole_mm=rng.choice((None, across * 0.8)),
        small_mm=rng.choice((None, across * 0.9)), length_mm=rng.uniform(5.0, 100.0),
        radius_mm=rng.choice((None, rng.uniform(0.5, 20.0))))
    return measured, kind


def test_nothing_is_named_that_is_further_off_than_it_is_said(seed: int = 20) -> None:
    """What fits lies within what wear and measuring explain; what doesn't is told as the nearest, and stands apart."""
    rng = Random(seed)
    for _ in range(150):
        measured, kind = sweep(rng)
        try:
            found = gauge(measured, kind)
        except Exception as error:
            assert type(error).__name__ == "CribError", (measured, kind)
            continue
        assert all(one.beyond <= 0 for one in found.candidates)
        assert all(one.beyond > 0 for one in found.nearest)
        for one in found.candidates:
            assert one.twin or one.off_mm is None or within(one, measured), (one, measured)


def within(one: Candidate, measured: Measured) -> bool:
    """The widest window that any kind has: what is ground may be a quarter inch under, a screw's class and wear."""
    widest = {"slitting-saw": 0.25, "side-cutter": 0.25, "screw": 0.05, "internal-thread": 0.08, "end-mill": 0.07}
    return abs(one.off_mm or 0.0) <= widest.get(one.kind, 0.0301) * INCH + 1e-6


def test_specials_stand_behind_standards_that_are_as_near() -> None:
    """.244 at 20 to the inch is a worn 1/4-20 before it is a 14-20; .186 at 32 a worn 10-32 before a 3/16-32."""
    for size, tpi, first in (("0.244", "20", "1/4-20 UNC screw"), ("0.186", "32", "10-32 UNF screw")):
        found = labels(asked(diameter=size, tpi=tpi))
        assert found[0] == first
        assert all(" NS " in name for name in found[[" NS " in name for name in found].index(True):])


def test_what_is_near_nothing_is_told_with_the_nearest(crib: Crib) -> None:
    found = crib("gauge", "--kind", "screw", "--diameter", ".900", "--tpi", "18", "--json")
    assert found.status == 1 and found.json["candidates"] == []
    nearest = found.json["nearest"][0]
    assert nearest["label"] == "7/8-18 NS screw" and nearest["off_mm"] == pytest.approx(0.025 * INCH)
    assert "the nearest" in crib("gauge", "--kind", "screw", "--diameter", ".900", "--tpi", "18").out


@pytest.mark.parametrize(("words", "says"), [
    (("--pin", "1/2", "--over-pins", "3"), "second pin"),
    (("--pin", "1/2"), "over them or between"),
    (("--pin", "1/2,1/4", "--over-pins", "3"), "a size for each pin"),
    (("--small", ".5"), "diameter"), (("--kind", "taper", "--diameter", "1", "--small", ".9"), "length"),
    (("--kind", "boring-bar", "--diameter", "1"), "isn't named by its sizes"),
    (("--kind", "screw", "--tpi", "20"), "diameter"),
    (("--pin", "1/2,1/4", "--over-pins", "2.0,2.5"), "measure again"),
])
def test_what_is_lacking_is_asked_for(words: tuple[str, ...], says: str, crib: Crib) -> None:
    found = crib("gauge", *words)
    assert found.status == 2 and says in found.err.replace("\n      ", " ")


def test_the_pins_of_any_dovetail_give_its_angle_back() -> None:
    """M = W + d (1 + cot(a / 2)) over pins and W - d (1 + cot(a / 2)) between them: Machinery's Handbook."""
    from math import radians, tan

    rng = Random(3)
    for _ in range(60):
        angle, width = rng.choice((45, 50, 55, 60)), rng.uniform(30, 90)
        one, two = rng.uniform(8, 13), rng.uniform(3, 6)
        out = 1 + 1 / tan(radians(angle) / 2)
        for sense, slot in ((1, False), (-1, True)):
            pins = tuple((pin, width + sense * pin * out) for pin in (one, two))
            found = gauge(Measured(pins=pins, is_slot=slot)).candidates[0]
            assert found.off_deg == pytest.approx(0, abs=1e-3) and f"{angle:g}" in str(found.label.facts)  # type: ignore[union-attr]
        height = one * rng.uniform(1.1, 2.0)
        opening = width - 2 * height / tan(radians(angle))
        found = gauge(Measured(pins=((one, width - one * out),), is_slot=True, opening_mm=opening, height_mm=height))
        assert found.candidates[0].off_deg == pytest.approx(0, abs=1e-3)


def test_sizes_are_read_as_they_are_typed() -> None:
    assert read("#7", "in", "hole").mm == pytest.approx(0.201 * INCH)
    assert labels(asked("nut", hole="#7", tpi="20"))[0] == labels(asked("nut", hole=".201", tpi="20"))[0]
