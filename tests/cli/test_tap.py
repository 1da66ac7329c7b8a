"""`crib tap`, `crib gauge` and the holes of `crib make` as whole lines: statuses, JSON, and what people read."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import Crib, Result

ROOT = Path(__file__).parents[2]
THREAD_KEYS = {"designation", "series", "major_mm", "pitch_mm", "minor_min_mm", "minor_max_mm", "class", "source"}
DRILL_KEYS = {"cutter_id", "label", "diameter_mm", "percent_thread", "hole_expected_mm", "percent_expected",
              "within_class", "within_class_by_size", "percent_base", "answer", "says"}
TAP_KEYS = {"thread", "taps", "drills", "not_owned", "hole_depth_mm", "rpm", "steps", "warnings", "answer"}


@pytest.fixture
def bench(begun: Callable[..., Crib]) -> Crib:
    """The sample bench."""
    return begun(("take-in", "--file", str(ROOT / "sample_crib" / "cutters.json")),
                 ("shop", "--spindle-rpm", "80,135,210,325,660,1115,1750,2720", "--chuck", "1/2",
                  "--collets", "3/8,1/2"))


def test_the_agreed_keys(bench: Crib) -> None:
    found = bench("tap", "1/4-20", "--depth", "1/2", "--json")
    assert found.status == 0 and set(found.json) >= TAP_KEYS and set(found.json["thread"]) >= THREAD_KEYS
    best = found.json["drills"][0]
    assert set(best) >= DRILL_KEYS and best["label"] == "#7 drill" and "1.299 P" in best["percent_base"]
    assert round(best["percent_thread"]) == 75 and best["within_class"] is True
    assert found.json["hole_depth_mm"] == pytest.approx((0.5 + 1.5 / 20 + 0.05) * 25.4)
    assert found.json["not_owned"][0].keys() >= {"label", "diameter_mm", "percent_thread"}


@pytest.mark.parametrize(("words", "status"), [
    (("10-32",), 0), (("quarter", "twenty"), 0), (("10-32", "--drill", "#21"), 0), (("9/16-18", "--drill", "33/64"), 0),
    (("9/16-18", "--drill", "33/64", "--class", "2B"), 1),
    (("10-32", "--drill", "1/4"), 1), (("3/8-16 LH",), 1), (("1/4-20", "--depth", "1/2", "--below", ".05"), 1),
    (("1/4-20", "--use", "lifting eye"), 1), (("--check-all",), 0), (("M8x1",), 1),
    (("10-33",), 2), (("1/4-",), 2), (("M6x",), 2), (("7/16-1000",), 2), (("1/4-20", "--class", "9Z"), 2),
    (("1/4-20", "--depth", "deep"), 2), (("1/4-20", "--material", "cheese"), 2), (("1/4-20", "--through"), 2), ((), 2),
    (("1/4-20", "--check-all"), 2), (("1/4-20", "--form", "square"), 2), (("1/4-20", "--drill", ""), 2),
    (("1/4-20", "--drill", "7"), 2),
])
def test_statuses(bench: Crib, words: tuple[str, ...], status: int) -> None:
    """Every one with a sentence for people and one document for programs, and never a trace."""
    plain, json = bench("tap", *words), bench("tap", *words, "--json")
    assert plain.status == json.status == status, plain.err
    assert "Traceback" not in plain.out + plain.err
    if status == 2:
        assert set(json.json["error"]) >= {"what", "read", "help"} and json.json["error"]["help"]
    else:
        assert json.json and plain.out


def test_the_nearest_thread_is_named(bench: Crib) -> None:
    assert "10-32 UNF" in bench("tap", "10-33").err and "M6x1" in bench("tap", "M6x").err


def test_units(bench: Crib) -> None:
    found = bench("tap", "10-32", "--units", "mm")
    assert "4.110" in found.out and "3.962" in found.out
    assert bench("tap", "10-32", "--json").json["drills"][0]["hole_expected_mm"] == pytest.approx(4.1096, abs=1e-3)


def shown(result: Result) -> list[str]:
    return [one["label"] for one in result.json["candidates"]]


@pytest.mark.parametrize(("words", "first", "also"), [
    (("--diameter", ".191", "--tpi", "32"), "10-32 UNF tap", "M5x0.8 tap"),
    (("--diameter", ".2495", "--tpi", "28"), "1/4-28 UNF tap", "M6x1 tap"),
    (("--diameter", "5.98mm", "--pitch", "1mm"), "M6x1 tap", "1/4-28 UNF tap"),
    (("--kind", "drill", "--diameter", ".2009"), "#7 drill", "5.1 mm drill"),
    (("--kind", "end-mill", "--diameter", ".487"), "1/2 end mill, reground", "1/2 end mill, reground"),
    (("--diameter", ".750", "--width", ".1875"), "606 keyseat cutter", "3/4 x 3/16 T-slot or slot cutter"),
    (("--kind", "reamer", "--diameter", ".3755"), "3/8 reamer", "3/8 reamer"),
    (("--angle", "60",), "60 degree dovetail cutter", "60 degree countersink or point"),
])
def test_gauge(crib: Crib, words: tuple[str, ...], first: str, also: str) -> None:
    found = crib("gauge", *words, "--json")
    assert found.status == 0 and shown(found)[0] == first and also in shown(found)
    assert all(set(one) >= {"kind", "label", "off_mm", "why"} for one in found.json["candidates"])


def test_twins_come_with_what_tells_them_apart(crib: Crib) -> None:
    found = crib("gauge", "--diameter", ".250", "--tpi", "28", "--json").json["candidates"]
    twin = next(one for one in found if one["label"] == "M6x1 tap")
    assert twin["twin"] and ".3571" in twin["why"] and ".3937" in twin["why"] and ".2362" in twin["why"]


@pytest.mark.parametrize(("words", "status"), [
    (("--diameter", "9",), 1), ((), 2), (("--kind", "blob", "--diameter", "1"), 2), (("--kind", "tap"), 2),
    (("--diameter", ".19", "--pitch", "0.8"), 2), (("--diameter", ".19", "--pitch", ".03", "--tpi", "32"), 2),
    (("--diameter", ".19", "--tpi", "many"), 2), (("--angle", "-3"), 2),
])
def test_gauge_statuses(crib: Crib, words: tuple[str, ...], status: int) -> None:
    found = crib("gauge", *words)
    assert found.status == status, found.out + found.err
    assert "Traceback" not in found.err


@pytest.mark.parametrize(("words", "roles"), [
    (("hole", "--diameter", "13/64", "--depth", "3/4"), ["spot", "drill"]),
    (("tapped-hole", "--thread", "1/4-20", "--depth", "1/2", "--below", "3/8"),
     ["spot", "drill", "countersink", "tap"]),
    (("counterbore", "--diameter", "13/32", "--depth", "1/4", "--hole", "17/64"), ["counterbore"]),
    (("gib-screw-holes", "--thread", "1/4-28", "--number", "4", "--length", "6", "--angle", "60", "--height", "3/8",
      "--gib", "1/8", "--nut", "7/16"), ["spot", "drill", "spotface", "transfer", "countersink", "tap"]),
])
def test_holes_are_plans_like_any_other(bench: Crib, words: tuple[str, ...], roles: list[str]) -> None:
    found = bench("make", *words, "--material", "grey iron", "--json")
    plan = found.json["plans"][0]
    assert found.status == 0 and [one["role"] for one in plan["passes"]] == roles
    assert all(one["view"] == "cross" and one["direction"] == "axial" for one in plan["passes"])
    assert plan["proof"]["left_mm"] == 0 and plan["proof"]["gouge_mm"] == 0 and plan["cost"] > 0
    assert found.json["feature"]["kind"] == words[0] and found.json["feature"]["material"] == "grey cast iron"
    page = bench("make", *words, "--material", "grey iron").out
    assert "Proved: nothing left" in page and "cross 0" in page and "metal" in page


def test_a_no_of_the_holes(bench: Crib) -> None:
    found = bench("make", "tapped-hole", "--thread", "1/4-20", "--depth", "1/2", "--below", ".05", "--json")
    assert found.status == 1 and found.json["answer"] == "cannot" and "breaks through" in found.json["says"]
    assert bench("make", "tapped-hole", "--depth", "1/2").status == 2


@pytest.mark.parametrize("asked", [
    ("make", "hole", "--diameter", "1/4", "--depth", "1/2", "--through", "yes", "--below", "1/4"),
    ("make", "tapped-hole", "--thread", "1/4-20", "--depth", "1/2", "--through", "yes", "--below", "1/4"),
    ("make", "1/4 hole through, depth 1/2, 1/4 below")])
def test_what_goes_through_leaves_no_metal_under_it(bench: Crib, asked: tuple[str, ...]) -> None:
    """Both were taken, and the metal that was to be left was drilled through. Geometry."""
    found = bench(*asked)
    assert found.status == 2 and "it goes through" in found.err


def test_what_is_said_of_metal_below_a_thread_that_goes_through_is_not_passed_over(bench: Crib) -> None:
    """It counted for nothing, and nothing said so. Geometry."""
    found = bench("tap", "1/4-20", "--depth", "1/2", "--through", "--below", "1/4", "--material", "grey iron")
    assert found.status == 0 and "it goes through: the metal below it" in " ".join(found.out.split())
