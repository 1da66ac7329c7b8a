"""Lines held back from tables, lists and options, put right one by one: what else they say goes with them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Crib

HEADING = "kind,diameter,face,neck,shank,flutes,marking,note"


@pytest.fixture
def table(crib: Crib, tmp_path: Path) -> Crib:
    """Three lines of a table that can't be taken in: no kind, no size, and a size that is none."""
    file = tmp_path / "list.csv"
    file.write_text("\n".join([HEADING, ',3/4,1/4,.3,1/2,10,806,"of old, good"', "t-slot-cutter,,3/16,.25,1/2,,,",
                               "end-mill,1/2/3,,,1/2,4,,"]) + "\n")
    assert crib("take-in", "--file", str(file), "--drawer", "B2").status == 1
    return crib


def only(done: dict[str, Any]) -> dict[str, Any]:
    [one] = done["taken_in"]
    assert isinstance(one, dict)
    return {key: value for key, value in one.items() if value not in (None, [], "unknown", False)}


@pytest.mark.parametrize("more", [("--kind", "keyseat-cutter"), ("put-right", "keyseat")])
def test_the_kind_that_was_missing(table: Crib, more: tuple[str, ...]) -> None:
    words = ("put-right", "1", "keyseat") if more[0] == "put-right" else ("1", *more)
    one = only(table("held-back", *words, "--json").json)
    assert (one["kind"], one["diameter_mm"], one["face_mm"], one["neck_mm"]) == (
        "keyseat-cutter", 19.05, 6.35, pytest.approx(7.62))
    assert (one["shank_mm"], one["flutes"], one["marking"], one["note"], one["drawer"]) == (
        12.7, 10, "806", "of old, good", "B2")


@pytest.mark.parametrize("words", [("--diameter", "1/2"), ("1/2 dia",), ("1/2 diameter measured",)])
def test_the_size_that_was_missing(table: Crib, words: tuple[str, ...]) -> None:
    one = only(table("held-back", "put-right", "2", *words, "--json").json)
    assert (one["kind"], one["diameter_mm"], one["face_mm"], one["shank_mm"]) == ("t-slot-cutter", 12.7, 4.7625, 12.7)


def test_a_better_size_goes_in_the_place_of_what_the_cell_says(table: Crib) -> None:
    one = only(table("held-back", "3", "--diameter", ".5", "--shank", "3/8", "--json").json)
    assert (one["diameter_mm"], one["shank_mm"], one["flutes"]) == (12.7, 9.525, 4)


def test_a_whole_line_stands_for_itself(table: Crib) -> None:
    one = only(table("held-back", "put-right", "3", "3/8 end mill 2 flute", "--json").json)
    assert (one["diameter_mm"], one["flutes"], one.get("shank_mm")) == (9.525, 2, None)


def test_what_was_tried_in_vain_counts_with_the_next_try(table: Crib) -> None:
    assert table("held-back", "1", "--reach", ".7").status == 1
    still = table("held-back", "--json").json["held_back"][0]
    assert still["text"].startswith(",3/4,1/4") and "kind" in still["why"]
    assert table("held-back", "put-right", "1", "whatsit").status == 1
    assert "whatsit" in table("history").out
    one = only(table("held-back", "1", "--kind", "keyseat-cutter", "--json").json)
    assert one["reach_mm"] == pytest.approx(17.78) and one["neck_mm"] == pytest.approx(7.62)


def test_put_right_and_undone_it_can_be_put_right_again(table: Crib) -> None:
    table("held-back", "1", "--kind", "keyseat-cutter")
    table("undo")
    one = only(table("held-back", "1", "--kind", "keyseat-cutter", "--json").json)
    assert one["neck_mm"] == pytest.approx(7.62) and one["id"] == 2


def test_options_keep_what_they_said(crib: Crib) -> None:
    crib("take-in", "--kind", "end-mill", "--flutes", "4", "--shank", "1/2", "--drawer", "left box")
    one = only(crib("held-back", "1", "--diameter", "1/2", "--json").json)
    assert (one["flutes"], one["shank_mm"], one["drawer"]) == (4, 12.7, "left box")


def test_an_entry_of_a_json_list(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "list.json"
    file.write_text('[{"diameter_mm": 12.7, "neck_mm": 6, "flutes": 8, "measured": ["neck_mm"]}, 7]')
    crib("take-in", "--file", str(file))
    one = only(crib("held-back", "1", "--kind", "keyseat-cutter", "--face", ".125", "--json").json)
    assert (one["diameter_mm"], one["neck_mm"], one["face_mm"], one["measured"]) == (12.7, 6.0, 3.175, ["neck_mm"])
    assert crib("held-back", "put-right", "2", "nothing that is one").status == 1
    assert crib("held-back", "2", "--let-go").status == 0


def test_a_table_in_millimetres_put_right_in_inches(crib: Crib, tmp_path: Path) -> None:
    """The cells stay in the units that they were read in; what is typed now is in those of now."""
    file = tmp_path / "list.csv"
    file.write_text("kind,diameter,shank\nend-mill,,12\n")
    crib("--units", "mm", "take-in", "--file", str(file))
    one = only(crib("--units", "in", "held-back", "1", "--diameter", ".5", "--json").json)
    assert (one["diameter_mm"], one["shank_mm"]) == (12.7, 12.0)


def test_a_line_that_begins_like_an_option_is_put_right_in_words(crib: Crib) -> None:
    """It was taken for options and looked up among the attributes, which failed."""
    crib("take-in", "--", '-- foo 3/8 "zz')
    done = crib("held-back", "put-right", "1", "3/8 drill", "--json")
    assert [one["label"] for one in done.json["taken_in"]] == ["3/8 drill"]
