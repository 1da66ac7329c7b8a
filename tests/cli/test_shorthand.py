"""Words, lines and standard input taken in; held back lines put right; the table taken out and in again."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from tests.cli.conftest import Crib


def test_words_are_taken_in_with_one_line_that_says_how(crib: Crib) -> None:
    done = crib("take-in", "3/4 x 3/16 woodruff hss 1/2 shk drawer B2 from the museum's box $0", "--from", "gift")
    assert done.status == 0
    [said] = done.out.splitlines()
    assert "3/4 x 3/16 keyseat cutter" in said and "place B2" in said and "neck" in said
    [cutter] = crib("find", "--json").json["cutters"]
    assert (cutter["diameter_mm"], cutter["face_mm"], cutter["shank_mm"]) == (19.05, 4.7625, 12.7)
    assert (cutter["price"], cutter["drawer"], cutter["material"]) == (0.0, "B2", "hss")
    assert "museum" in cutter["note"]
    shown = crib("show", "1", "--json").json
    assert shown["typed"]["words"].startswith("3/4 x 3/16 woodruff")
    assert shown["history"][0]["after"]["from"] == "gift"


def test_an_option_fills_what_the_words_leave_out(crib: Crib) -> None:
    assert crib("take-in", "1/2", "em", "--drawer", "C1", "--json").json["taken_in"][0]["drawer"] == "C1"
    assert crib("take-in", "1/2 em drawer B2", "--drawer", "C1", "--json").json["taken_in"][0]["drawer"] == "B2"


def test_what_is_held_back_keeps_the_option_beside_it(crib: Crib) -> None:
    assert crib("take-in", "404", "--drawer", "left box", "--json").json["held_back"][0]["text"] == (
        "404 --drawer 'left box'")
    [cutter] = crib("held-back", "put-right", "1", "key cutter", "--json").json["taken_in"]
    assert (cutter["marking"], cutter["drawer"]) == ("404", "left box")


def test_units_of_the_crib_hold_for_words(crib: Crib) -> None:
    """One that is there keeps its own; what begins in millimetres is in `test_take_in.py`."""
    crib("take-in", "1/2 end mill")
    assert crib("take-in", "12 end mill", "--json", "--units", "mm").json["taken_in"][0]["diameter_mm"] == 12.0
    assert crib("take-in", "12 end mill", "--json").status == 1


def test_a_file_of_lines(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "box.txt"
    file.write_text("3/8 2fl em\nsame but 5/16\n\nwhatsit\nset 1-60 number drills, #29 missing\n", encoding="utf-8")
    done = crib("take-in", "--file", str(file), "--json")
    assert done.status == 0
    assert len(done.json["taken_in"]) == 61 and [one["count"] for one in done.json["missing"]] == [0]
    assert [(one["line"], one["text"]) for one in done.json["held_back"]] == [(4, "whatsit")]
    [kept] = crib("held-back", "--json").json["held_back"]
    assert kept["file"] == str(file)
    assert "missing" in crib("find", "#29 drill").out
    said = crib("take-in", "found the 29 drill", "--json").json
    assert [one["count"] for one in said["amended"]] == [1]


def test_a_missing_cutter_is_not_planned_with(crib: Crib) -> None:
    from crib.store import open_crib

    crib("take-in", "set 1-60 number drills, #29 missing")
    with open_crib(None) as opened:
        assert len(opened.cutters()) == 59 and len(opened.find(()).cutters) == 60


@pytest.mark.parametrize("more", [("end", "mill"), (".187 2fl end mill",), ("--kind", "end-mill")])
def test_a_held_back_line_is_put_right(crib: Crib, more: tuple[str, ...]) -> None:
    """By the word that it lacked, by the whole line, or by an option."""
    crib("take-in", ".187 2fl")
    done = crib("held-back", "put-right", "1", *more, "--json")
    assert done.status == 0
    [cutter] = done.json["taken_in"]
    assert (cutter["kind"], cutter["diameter_mm"], cutter["flutes"]) == ("end-mill", 4.7498, 2)
    assert crib("held-back", "--json").json["held_back"] == []
    assert ".187 2fl" in crib("show", str(cutter["id"]), "--json").json["typed"]["words"]


def test_a_try_that_fails_is_kept_too(crib: Crib) -> None:
    crib("take-in", "404")
    assert crib("held-back", "put-right", "1", "no idea", "--json").status == 1
    assert crib("held-back", "--json").json["held_back"][0]["text"] == "404 / no idea"
    assert crib("held-back", "1").out.startswith("text")
    assert crib("held-back", "9").status == 2
    assert crib("held-back", "1", "--let-go", "--json").json["let_go"]["text"] == "404 / no idea"
    assert crib("held-back", "--json").json["held_back"] == []


def test_headings_are_read_by_meaning_in_any_order(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "list.csv"
    file.write_text("Qty,Location,Shank dia (mm),Cutter Type,Dia. (inch),No. of teeth,Weight\n"
                    "2,B2,12,Endmill,1/2,4,heavy\n1,B3,10,Woodruff cutter,.750,8,\n", encoding="utf-8")
    done = crib("take-in", "--file", str(file), "--json")
    assert [(one["kind"], one["count"], one["drawer"], one["shank_mm"], one["diameter_mm"], one["flutes"])
            for one in done.json["taken_in"]] == [("end-mill", 2, "B2", 12.0, 12.7, 4),
                                                  ("keyseat-cutter", 1, "B3", 10.0, 19.05, 8)]
    assert "Qty' is read as count" in done.err and "'Weight' is not known" in done.err
    assert done.json["lines"] == [{"line": 2, "id": 1}, {"line": 3, "id": 2}]


def test_a_column_of_words_is_read_as_shorthand(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "list.csv"
    file.write_text("Description,Place\n3/8 2fl em hss,B2\n404,B3\n", encoding="utf-8")
    done = crib("take-in", "--file", str(file), "--json").json
    assert [(one["kind"], one["drawer"]) for one in done["taken_in"]] == [("end-mill", "B2")]
    assert [one["text"] for one in done["held_back"]] == ["404,B3"]


def test_what_is_exported_comes_in_again(crib: Crib, tmp_path: Path) -> None:
    for words in ("1/8 3/16 DE 2fl", "1/2 em reground, miked .4875 $8 drawer B2", "1/4-20 plug tap H3", "woodruff 606"):
        crib("take-in", words)
    crib("amend", "2", "--note", '=HYPERLINK("x")')
    crib("take-in", "7/16 drill")
    crib("take-in", "9/16 drill")
    crib("undo", "6")
    before = crib("find", "--json").json["cutters"]
    assert [one["id"] for one in before] == [1, 2, 3, 4, 6]
    for name in ("all.csv", "all.json"):
        assert crib("export", "--to", str(tmp_path / name)).status == 0
        other = str(tmp_path / f"{name}.db")
        again = crib("--crib", other, "take-in", "--file", str(tmp_path / name), "--json").json
        assert again["held_back"] == []
        assert [one | {"id": 0} for one in again["taken_in"]] == [one | {"id": 0} for one in before]
    assert crib("export", "--to", str(tmp_path / "all.csv")).status == 2


def test_no_cell_begins_like_a_formula(crib: Crib) -> None:
    for note in ("=1+1", "+1", "-1", "@x"):
        crib("take-in", "--kind", "blank", "--diameter", "1", f"--note={note}", f"--marking={note}", f"--drawer={note}")
    rows = list(csv.reader(io.StringIO(crib("export").out)))
    assert len(rows) == 5
    assert not [cell for row in rows[1:] for cell in row if cell[:1] in "=+-@" and cell]


def test_several_texts_are_several_cutters(crib: Crib) -> None:
    """Two quoted texts became one cutter with the other in its note."""
    taken = crib("take-in", "quarter twenty plug tap", "#7 drill", "--json").json["taken_in"]
    assert [one["kind"] for one in taken] == ["tap", "drill"]
    assert crib("take-in", "quarter", "twenty", "tap", "#7", "drill").status == 1


def test_a_tap_is_found_by_the_diameter_of_its_thread(crib: Crib) -> None:
    """It has no diameter of its own, so nothing was found."""
    crib("take-in", "1/4-20 plug tap", "10-32 plug tap", "M6x1 plug tap")
    for words, thread in ((("tap", "1/4"), "1/4-20"), (("plug tap 10",), "10-32"), (("taps", "6mm"), "M6x1")):
        assert [one["thread"] for one in crib("find", *words, "--json").json["cutters"]] == [thread]


@pytest.mark.parametrize("text", ["", "   "])
def test_nothing_said_is_nothing_understood(crib: Crib, text: str, tmp_path: Path) -> None:
    """An empty text printed nothing and ended with 1, as if something had been answered."""
    (tmp_path / "empty.txt").write_text(text)
    for words in (("take-in", text), ("take-in", "--file", str(tmp_path / "empty.txt"))):
        done = crib("--json", *words)
        assert done.status == 2 and done.json["error"]["what"] and done.json["error"]["help"]


def test_a_line_that_was_piped_in_is_told_as_one(crib: Crib, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where a held-back line may be what lacks it was said to be `line 1 of -`."""
    monkeypatch.setattr("sys.stdin", io.StringIO("T slot cutter 1/2 bolt shank 3/4\n1/2 end mill\n"))
    assert crib("take-in").status == 0
    said = " ".join(crib("make", "t-slot", "--bolt", "1/2", "--length", "4").out.split())
    assert "line 1 of a list that was piped in (\"T slot cutter 1/2 bolt shank 3/4\"), held back, may be one" in said
