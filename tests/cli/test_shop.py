"""The shop's settings."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Crib


def test_set_and_answer_the_whole_shop(crib: Crib) -> None:
    done = crib(
        "shop",
        "--spindle-rpm",
        "150,60,95",
        "--collets",
        "1/4,3/8",
        "--chuck",
        "1/2",
        "--arbors",
        "1:1-3/4",
        "--neck-clearance",
        ".005",
        "--hour-rate",
        "18",
        "--currency",
        "eur",
        "--backlash",
        "0",
        "--no-dro",
        "--stiffness",
        "bench",
        "--json",
    )
    assert done.status == 0
    now = crib("--json", "shop").json
    assert now == done.json
    assert now["spindle_rpm"] == [60, 95, 150]
    assert now["collets_mm"] == [6.35, 9.525]
    assert now["arbors"] == [{"bore_mm": 25.4, "flange_mm": 44.45, "nose_mm": None, "reach_mm": None}]
    assert (now["neck_clearance_mm"], now["backlash_mm"], now["dro"], now["currency"]) == (0.127, 0.0, False, "EUR")


def test_units_behind_the_command_are_set_and_before_it_only_used(crib: Crib) -> None:
    assert crib("shop", "--units", "mm", "--neck-clearance", "0.2", "--json").json["neck_clearance_mm"] == 0.2
    assert crib("shop", "--json").json["units"] == "mm"
    once = crib("--units", "in", "shop", "--neck-clearance", ".010", "--json").json
    assert (once["units"], once["neck_clearance_mm"]) == ("mm", 0.254)


def test_none_is_an_empty_list(crib: Crib) -> None:
    assert crib("shop", "--collets", "none", "--json").json["collets_mm"] == []


@pytest.mark.parametrize(
    "words",
    [
        ("--spindle-rpm", "60,,95"),
        ("--spindle-rpm", "0"),
        ("--spindle-rpm", "fast"),
        ("--collets", "3/0"),
        ("--arbors", "1"),
        ("--arbors", "1:1/2"),
        ("--stiffness", "stif"),
        ("--units", "furlong"),
        ("--hour-rate", "-1"),
        ("--hour-rate", "nan"),
        ("--currency", "dollars"),
        ("--neck-clearance", "-1"),
        ("--chuck", ""),
        ("--mill-runout", "-.001"),
        ("--saw-runout", "wobbly"),
        ("--boring-heads", "1/2:facing"),
    ],
)
def test_nonsense_is_refused_and_changes_nothing(crib: Crib, words: tuple[str, ...]) -> None:
    crib("shop", "--chuck", "1/2")
    before = crib("shop", "--json").json
    done = crib("--json", "shop", *words)
    assert done.status == 2 and done.json["error"]["what"] and done.json["error"]["help"]
    assert crib("shop", "--json").json == before


def test_what_the_machine_and_the_hand_can_do(crib: Crib) -> None:
    """Power, feeds and the steel of unknown cutters are settings; 1 hp is .7457 kW."""
    done = crib("shop", "--motor-kw", "2hp", "--hand-feed", "6", "--power-feed", "12", "--unknown-steel", "HSS",
                "--magnesium", "--json").json
    assert (round(done["motor_kw"], 4), done["unknown_steel"], done["magnesium"]) == (1.4914, "hss", True)
    assert (round(done["hand_feed_mm"], 6), round(done["power_feed_mm"], 6)) == (152.4, 304.8)
    off = crib("shop", "--motor-kw", "none", "--power-feed", "none", "--no-magnesium", "--json").json
    assert (off["motor_kw"], off["power_feed_mm"], off["magnesium"]) == (None, None, False)
    for text in ("0", "-1hp", "strong", "1000"):
        assert crib("shop", "--motor-kw", text).status == 2


def test_what_runs_out_is_told_to_a_tenth(crib: Crib) -> None:
    """A thou and a half is no two thou, and nought is measured too."""
    assert ".0015" in crib("shop", "--mill-runout", ".0015").out
    assert crib("shop", "--saw-runout", "0", "--json").json["saw_runout_mm"] == 0.0
    assert crib("shop", "--saw-runout", "none", "--json").json["saw_runout_mm"] is None


def test_an_old_question_in_magnesium_stops_nothing(crib: Crib) -> None:
    """A question that may not be asked now is passed over by what goes by all questions."""
    crib("take-in", "--kind", "end-mill", "--diameter", "1/2", "--material", "hss", "--condition", "sharp")
    asked = ("make", "slot", "--width", "1/2+.006-0", "--depth", ".2", "--material", "AZ31")
    assert crib(*asked).status == 2
    crib("shop", "--magnesium")
    assert crib(*asked).status in (0, 1)
    crib("shop", "--no-magnesium")
    assert crib("wish-list").status in (0, 1)


@pytest.mark.parametrize(("option", "text", "right"), [
    ("--backlash", "12", "12 thou"), ("--spindle-rpm", "3,60", "60,95"), ("--collets", "25", "1"),
    ("--screw-lead", "5", "5mm"), ("--mill-runout", "2", "2 thou"), ("--saw-runout", "3", ".003"),
])
def test_a_setting_that_no_shop_has_is_asked_about(crib: Crib, option: str, text: str, right: str) -> None:
    """A backlash of 12 inches was set without a word: .012 was meant."""
    refused = crib("shop", option, text)
    assert refused.status == 2 and "is that meant?" in refused.err
    assert crib("shop", option, right).status == 0
    assert crib("shop", option, text, "--yes").status == 0
