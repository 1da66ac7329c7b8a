"""The history of every change, and undoing them, as typed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Crib


@pytest.fixture
def stocked(crib: Crib) -> Crib:
    """A crib with a keyseat cutter, its neck measured and put in a drawer since."""
    crib("take-in", "--kind", "keyseat-cutter", "--diameter", "3/4", "--face", "1/4", "--shank", "1/2")
    crib("amend", "1", "--neck", ".340", "--measured", "neck")
    crib("amend", "1", "--drawer", "B2")
    return crib


def test_the_history_tells_what_it_was_before_newest_first(stocked: Crib) -> None:
    changes = stocked("history", "--json").json["changes"]
    assert [(one["id"], one["what"], one["undone_by"]) for one in changes] == [
        (3, "amend", None), (2, "amend", None), (1, "take-in", None)]
    assert changes[1]["before"]["neck_mm"] is None and changes[1]["after"]["known"] == {"neck_mm": "measured"}
    shown = stocked("history").out
    assert "neck not known -> .340 (measured)" in shown and "drawer not known -> B2" in shown
    stocked("take-in", "1/4 drill")
    assert "drill" in stocked("history").out and "drill" not in stocked("history", "1").out
    assert stocked("history", "9").status == 2


def test_undoing_goes_back_step_by_step_and_comes_again(stocked: Crib) -> None:
    assert stocked("undo").status == 0
    assert stocked("show", "1", "--json").json["drawer"] is None
    done = stocked("undo", "--json").json
    assert ([one["id"] for one in done["undone"]], [one["undoes"] for one in done["by"]]) == ([2], [2])
    after = stocked("show", "1", "--json").json
    assert (after["neck_mm"], after["measured"], after["typed"].get("neck_mm")) == (None, [], None)
    assert "mic the neck behind the teeth" in after["questions"]
    stocked("undo", str(done["by"][0]["id"]))
    again = stocked("show", "1", "--json").json
    assert (again["neck_mm"], again["typed"]["neck_mm"]) == (pytest.approx(8.636), ".340")
    assert again["measured"] == ["neck_mm"]


def test_a_later_change_of_the_same_thing_is_named(stocked: Crib) -> None:
    stocked("amend", "1", "--neck", ".345")
    done = stocked("undo", "2")
    assert done.status == 2 and "change 4" in done.err and "crib undo 4 first" in done.err
    assert stocked("undo", "3").status == 0, "the drawer has nothing to do with the neck"
    stocked("undo", "4")
    assert stocked("undo", "2").status == 0
    again = stocked("--json", "undo", "2")
    assert again.status == 2 and "was undone by change" in again.json["error"]["what"]


def test_what_was_taken_in_is_taken_back_and_comes_back_as_it_was(stocked: Crib) -> None:
    was = stocked("show", "1", "--json").json
    assert stocked("undo", "1").status == 2
    for _ in range(3):
        stocked("undo")
    assert stocked("find").status == 1
    assert stocked("undo").status == 2, "nothing is left to undo"
    for number in (6, 5, 4):
        assert stocked("undo", str(number)).status == 0
    now = stocked("show", "1", "--json").json
    assert {key: now[key] for key in was if key != "history"} == {key: was[key] for key in was if key != "history"}


def test_a_setting_and_a_line_that_was_held_back(stocked: Crib) -> None:
    stocked("shop", "--neck-clearance", ".005", "--dro", "no")
    stocked("undo")
    shop = stocked("shop", "--json").json
    assert (shop["neck_clearance_mm"], shop["dro"]) == (pytest.approx(0.254), True)
    stocked("take-in", "1/2")
    stocked("held-back", "put-right", "1", "drill 1/2 whatever size")
    assert stocked("held-back", "--json").json["held_back"] == []
    assert "put right" in stocked("history").out
    assert stocked("undo").status == 0
    [held] = stocked("held-back", "--json").json["held_back"]
    assert held["id"] == 1 and held["text"] == "1/2" and stocked("find", "drill").status == 1
    stocked("held-back", "1", "--let-go")
    stocked("undo")
    assert len(stocked("held-back", "--json").json["held_back"]) == 1


def test_words_added_to_a_held_line_are_written_down_and_can_be_undone(stocked: Crib) -> None:
    stocked("take-in", "1/2")
    assert stocked("held-back", "put-right", "1", "nonsense").status == 1
    assert [one["text"] for one in stocked("held-back", "--json").json["held_back"]] == ["1/2 / nonsense"]
    assert "1/2 -> 1/2 / nonsense" in stocked("history").out
    stocked("undo")
    assert [one["text"] for one in stocked("held-back", "--json").json["held_back"]] == ["1/2"]


@pytest.mark.parametrize("number", ["0", "-1", "99", "9" * 30, "x", "1.5", "2-", "-", "8-9", "3-2", "²"])
def test_a_change_that_is_not_there(stocked: Crib, number: str) -> None:
    done = stocked("--json", "undo", number)
    assert done.status == 2 and done.json["error"]["what"]


def test_seeing_a_cutter_changes_nothing_and_is_in_nobodys_way(stocked: Crib) -> None:
    stocked("walk-round", "--seen", "1")
    assert stocked("undo", "4").status == 2
    assert stocked("undo", "2").status == 0
    assert stocked("undo", "--json").json["undone"][0]["id"] == 3


def test_undo_at_the_prompt_is_an_undoing_in_the_history(stocked: Crib, tmp_path: Path) -> None:
    lines = tmp_path / "lines.txt"
    lines.write_text("1/4 drill\nundo\n")
    stocked("take-in", "--file", str(lines))
    back, taken, *_ = stocked("history", "--json").json["changes"]
    assert (back["what"], back["undoes"], taken["undone_by"]) == ("take-back", taken["id"], back["id"])
    assert stocked("undo", str(back["id"])).status == 0
    assert stocked("find", "drill").status == 0


def test_the_owners_notes_are_changes_like_any_other(stocked: Crib) -> None:
    stocked("take-in", "#7 drill")
    [result] = stocked("result", "hole", ".2035", "--drill", "#7", "--json").json["results"]
    noted = stocked("history", "--json").json["changes"][0]
    assert noted["subject"] == f"note {result['id']}" and "written down" in stocked("history").out
    stocked("undo")
    assert stocked("result", "--json").json["results"] == []
    stocked("undo", str(noted["id"] + 1))
    assert [one["id"] for one in stocked("result", "--json").json["results"]] == [result["id"]]
    stocked("result", "undo", str(result["id"]))
    assert "crossed out" in stocked("history").out
    stocked("undo")
    assert [one["id"] for one in stocked("result", "--json").json["results"]] == [result["id"]]


def test_a_whole_file_is_undone_at_once_or_not_at_all(stocked: Crib, tmp_path: Path) -> None:
    file = tmp_path / "gift.csv"
    file.write_text("kind,diameter\n" + "".join(f"drill,{number}/64\n" for number in range(8, 20)) + "drill,\n")
    stocked("take-in", "--file", str(file))
    last = stocked("history", "--json").json["changes"][0]["id"]
    assert last == 3 + 12 + 1
    stocked("amend", "9", "--drawer", "B2")
    refused = stocked("undo", f"4-{last}")
    assert refused.status == 2 and f"change {last + 1}" in refused.err
    assert len(stocked("find", "drill", "--json").json["cutters"]) == 12
    assert len(stocked("undo", f"4-{last + 1}", "--json").json["undone"]) == 14
    assert stocked("find", "drill").status == 1 and stocked("held-back", "--json").json["held_back"] == []
    assert [one["id"] for one in stocked("find", "--json").json["cutters"]] == [1]
    assert stocked("undo", f"4-{last + 1}").status == 2


def test_the_last_changes_are_shown_and_the_others_counted(stocked: Crib, monkeypatch: pytest.MonkeyPatch) -> None:
    """All of 100,000 were read and laid out, which took half a gigabyte."""
    stocked("amend", "1", "--drawer", "B3")
    def shown(*words: str) -> list[str]:
        return [" ".join(line.split()) for line in stocked("history", *words).out.splitlines()]

    every = shown()
    monkeypatch.setattr("crib.cli.out.MOST_ROWS", 2)
    assert shown() == [*every[:3], f"and {len(every) - 3} before them; --all shows them"]
    assert shown("--all") == every and len(stocked("history", "--json").json["changes"]) == len(every) - 1
    monkeypatch.setattr("crib.cli.out.MOST_ROWS", len(every) - 1)
    assert shown() == every
