"""The cribs that are asked, each as files and command lines: the sample, one in inches, one in millimetres, one with
sizes that nobody measured, and one of few cutters."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tests import closed_strategies, slant_strategies, strategies
from tests.answers.asking import Crib
from tests.benchmarks.cribs import crib as made_up
from tests.trials import near_widths
from tests.trials.round_work import crib as round_work

SAMPLE = Path(__file__).parents[2] / "sample_crib"
_SHOP = ("shop", "--spindle-rpm", "80,135,210,325,660,1115,1750,2720")
_HEAD = ("--boring-heads", ".5:.4375:4:1000:diameter")
_ARBORS = ("--arbors", "1:1.75,.875:1.5")
_COLLETS = ("--collets", "1/8,3/16,6mm,1/4,5/16,3/8,1/2,3/4", "--chuck", "1/2")
_HOLES = ("diameter_mm", "neck_mm", "neck_mm", "face_mm", "reach_mm", "reach_mm", "length_of_cut_mm", "flutes",
          "centre_cutting", "angle_deg", "tip_mm", "corner_radius_mm", "shank_mm", "overall_length_mm", "material",
          "condition", "measured", "bore_mm", "tap_chamfer", "pilot_mm")
_FEW = (5, 12, 25, 33)
_LONG_AGO = "2024-03-14"


def cribs() -> dict[str, Crib]:
    """Every crib by its name."""
    return {"sample": _sample(), "inch": _inch(), "metric": _metric(), "unknown": _unknown(), "few": _few()}


def owned() -> list[dict[str, Any]]:
    """The cutters of the sample as they are kept."""
    return list(json.loads((SAMPLE / "cutters.json").read_text(encoding="utf-8")))


@cache
def fitting() -> tuple[Any, ...]:
    """Made-up features and the cutters for them: whole millimetres, and exact fits on purpose."""
    straight = strategies.REQUESTS.flatmap(lambda one: st.tuples(
        st.just(one), st.tuples(strategies.right_for(one, 1), strategies.cribs(one, 5)).map(lambda two: sum(two, ()))))
    closed = st.one_of(closed_strategies.closed_slots(), closed_strategies.closed_t_slots()).flatmap(
        lambda one: st.tuples(st.just(one), closed_strategies.closed_cribs(one)))
    leaning = slant_strategies.SLANTED.flatmap(
        lambda one: st.tuples(st.just(one), slant_strategies.slanted_cribs(one)))
    drawn = zip(_drawn(straight, 60), _drawn(closed, 60), _drawn(leaning, 60), strict=False)
    near = [near_widths.pair(Random(number)) for number in range(20)]
    return (*near, *(pair for some in drawn for pair in some))


def _drawn(strategy: st.SearchStrategy[Any], count: int) -> list[Any]:
    found: list[Any] = []

    @settings(max_examples=count, derandomize=True, database=None, deadline=None, phases=[Phase.generate])
    @given(strategy)
    def draw(one: Any) -> None:
        found.append(one)

    draw()
    return found


def _crib(cutters: Sequence[dict[str, Any]], *steps: tuple[str, ...]) -> Crib:
    kept = [{key: value for key, value in one.items() if value not in (None, [], "") and key not in ("id", "label")}
            for one in cutters]
    return Crib({"cutters.json": json.dumps(kept)}, (*steps, ("take-in", "--file", "cutters.json", "--yes")))


def _with(crib: Crib, *steps: tuple[str, ...]) -> Crib:
    return Crib(crib.files, (*crib.steps, *steps))


def _sample() -> Crib:
    prices = json.loads((SAMPLE / "prices.json").read_text(encoding="utf-8"))
    shop = (*_SHOP, *_HEAD, *_ARBORS, *_COLLETS, "--no-dro", "--stiffness", "knee", "--backlash", "8thou",
            "--hour-rate", "15", "--currency", "USD")
    return _with(_crib(owned(), (*shop,)), *(
        ("price", one["price"], one["words"], "--where", one["where"], "--on", _LONG_AGO) for one in prices))


def _inch() -> Crib:
    """A shop of many years, and the drills, reamers and taps of round work."""
    cutters = [one.as_json() for one in (*made_up(40), *round_work(Random(3)))]
    shop = (*_SHOP, *_HEAD, *_ARBORS, *_COLLETS, "--dro", "--stiffness", "bench", "--backlash", ".012", "--hour-rate",
            "25", "--regrind-price", "9", "--neighbour-rate", "40", "--knee-lead", ".1", "--edge-finder", ".2")
    return _with(_crib(cutters, shop), ("price", "19+4", "1/2 4fl end mill"), ("price", "8", "5/8 collet"),
                 ("friends", "add", "the museum", "1 x 1/4 keyseat cutter"), ("take-in", "404"))


def _metric() -> Crib:
    """Cutters that fit made-up features to the hundredth, or just don't."""
    cutters = [cutter.as_json() for _, some in fitting()[:50] for cutter in some]
    shop = ("shop", "--units", "mm", "--spindle-rpm", "60,110,190,320,540,900,1500,2500", "--collets",
            "4,6,8,10,12,16", "--chuck", "13", "--boring-heads", "12:11:90:900:radius", "--dro", "--stiffness", "heavy",
            "--backlash", ".1", "--arbors", "22:34,27:41", "--power-feed", "400", "--currency", "EUR")
    return _crib([*cutters, *(one.as_json() for one in round_work(Random(11)))], shop)


def _unknown() -> Crib:
    """The sample with holes in what is known of it, and little known of the shop."""
    draw, cutters = Random(5), []
    for one in owned():
        gone = draw.sample(_HOLES, draw.choice((0, 2, 4)))
        left = {key: value for key, value in one.items() if key not in gone}
        if "diameter_mm" in gone and "diameter_mm" in one:
            left |= {"nominal_mm": one["diameter_mm"], "reground": True, "measured": []}
        cutters.append({**left, "measured": [key for key in left.get("measured", ()) if key in left]})
    return _crib(cutters, ("shop", "--units", "in", "--stiffness", "knee"))


def _few() -> Crib:
    """A dozen, of which some are away."""
    kinds: dict[str, dict[str, Any]] = {}
    for one in owned():
        kinds.setdefault(one["kind"], one)
    some = [one for one in owned() if one["id"] in _FEW] + [
        kinds[name] for name in ("t-slot-cutter", "dovetail-cutter", "drill", "tap", "reamer", "slitting-saw",
                                 "countersink", "boring-bar", "counterbore")]
    return _with(_crib(some, (*_SHOP, *_COLLETS, *_ARBORS)), ("now", "6", "lent to the museum"), ("now", "5", "lost"))
