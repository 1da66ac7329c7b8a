"""Taking in by options and by files, as other programs see it."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from tests.cli.conftest import Crib

KEYSEAT = (
    "take-in",
    "--kind",
    "keyseat-cutter",
    "--diameter",
    "5/8",
    "--face",
    "3/16",
    "--neck",
    ".250",
    "--reach",
    "11/16",
)


def test_every_size_is_kept_in_mm_and_as_typed(crib: Crib) -> None:
    done = crib(*KEYSEAT, "--measured", "diameter,neck_mm", "--from", "gift", "--drawer", "B2", "--json")
    assert done.status == 0
    [cutter] = done.json["taken_in"]
    sizes = {"diameter_mm": 15.875, "face_mm": 4.7625, "neck_mm": 6.35, "reach_mm": 17.4625, "nominal_mm": None}
    assert {key: cutter[key] for key in sizes} == sizes
    assert (cutter["measured"], cutter["drawer"], cutter["questions"]) == (["diameter_mm", "neck_mm"], "B2", [])
    assert cutter["label"] == "5/8 x 3/16 keyseat cutter"
    shown = crib("show", str(cutter["id"]), "--json").json
    assert shown["typed"]["neck_mm"] == ".250"
    assert [change["what"] for change in shown["history"]] == ["take-in"]


def test_reground_and_not_measured_has_no_diameter(crib: Crib) -> None:
    [cutter] = crib("--json", "take-in", "--kind", "end-mill", "--diameter", "1/2", "--reground").json["taken_in"]
    assert (cutter["diameter_mm"], cutter["nominal_mm"]) == (None, 12.7)
    assert any("mic the diameter" in question for question in cutter["questions"])


def test_reground_and_measured_keeps_both(crib: Crib) -> None:
    words = (
        "take-in",
        "--json",
        "--kind",
        "end-mill",
        "--nominal",
        "1/2",
        "--diameter",
        ".4875",
        "--reground",
        "yes",
        "--measured",
        "diameter",
    )
    [cutter] = crib(*words).json["taken_in"]
    assert (cutter["diameter_mm"], cutter["nominal_mm"], cutter["questions"]) == (12.3825, 12.7, [])


def test_a_stamp_alone_is_the_size(crib: Crib) -> None:
    [cutter] = crib("take-in", "--json", "--kind", "end-mill", "--nominal", "1/2").json["taken_in"]
    assert cutter["diameter_mm"] == cutter["nominal_mm"] == 12.7


@pytest.mark.parametrize("nonsense", ["3/0", "-1", "nan", "1/4/2", "", " ", "inf", "1e3", "1/2/", "xx", "9" * 5000])
def test_nonsense_lengths_change_nothing(crib: Crib, place: Path, nonsense: str) -> None:
    done = crib("--json", "take-in", "--kind", "end-mill", f"--diameter={nonsense}")
    assert done.status == 2
    error = done.json["error"]
    assert "diameter" in error["what"] and error["help"]
    assert not place.exists()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--kind", "keyseat-cutter", "--diameter", "5/8", "--neck", "3/4"), "neck, 3/4"),
        (("--kind", "keyseat-cutter", "--diameter", "5/8", "--face", "1", "--reach", "1/2"), "face, 1"),
        (("--kind", "drill", "--diameter", "1/2", "--overall-length", "2", "--length-of-cut", "3"), "length of cut, 3"),
        (("--kind", "dovetail-cutter", "--diameter", "3/4", "--angle", "200"), "200"),
        (("--kind", "slitting-saw", "--diameter", "1", "--face", "3/4"), "3/4"),
        (("--kind", "keysat", "--diameter", "1"), "keysat"),
        (("--kind", "end-mill", "--diameter", "1", "--material", "hs"), "hs"),
        (("--kind", "end-mill", "--diameter", "1", "--flutes", "two"), "two"),
        (("--kind", "end-mill", "--diameter", "1", "--measured", "neck"), "neck"),
        (("--kind", "end-mill", "--diameter", "1", "--measured", "nekc"), "nekc"),
        (("--kind", "end-mill", "--diameter", "1", "--from", "thief"), "thief"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(crib: Crib, words: tuple[str, ...], says: str) -> None:
    assert crib("take-in", "--kind", "blank", "--diameter", "1").status == 0
    done = crib("--json", "take-in", *words)
    assert done.status == 2
    assert says in done.json["error"]["what"] and done.json["error"]["help"]
    assert len(crib("find", "--json").json["cutters"]) == 1
    assert crib("held-back", "--json").json["held_back"] == []


def test_near_names_are_suggested(crib: Crib) -> None:
    done = crib("--json", "take-in", "--kind", "keysat-cuter", "--diameter", "1")
    assert "keyseat-cutter" in done.json["error"]["help"]


@pytest.mark.parametrize(
    "words", [("--kind", "end-mill"), ("--diameter", "1/2"), ("3/8 2fl",), ("3/8", "2fl")]
)
def test_without_kind_or_size_it_is_held_back_and_kept(crib: Crib, words: tuple[str, ...]) -> None:
    done = crib("--json", "take-in", *words)
    assert done.status == 1
    assert done.json["taken_in"] == []
    [held] = done.json["held_back"]
    assert set(held) == {"line", "text", "why", "help"}
    [kept] = crib("held-back", "--json").json["held_back"]
    assert kept["text"] == held["text"] == " ".join(words)


def test_a_csv_is_taken_in_as_far_as_it_can_be_read(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "gift box.csv"
    file.write_bytes(
        b"\xef\xbb\xbf"
        + "\r\n".join(
            [
                "Kind,Diameter,Neck (mm),marking,measured,reground,colour",
                'keyseat-cutter,5/8",6.35,606,diameter; neck,no,blue',
                "end-mill,1/2,,,,yes,",
                "end-mop,1/2,,,,,",
                "end-mill,,,,,,",
                "",
                'drill,#7,,"say ""seven""",,,',
                "end-mill,1/2,abc,,,,",
                "end-mill,6,5,,,,,,,metric",
                '"end-mill,3/8,,,,,',
                "end-mill,3/4,19.1,,,,",
            ]
        ).encode()
    )
    done = crib("take-in", "--file", str(file), "--json")
    assert done.status == 0
    taken, held = done.json["taken_in"], done.json["held_back"]
    assert [cutter["label"] for cutter in taken] == [
        "5/8 keyseat cutter",
        "1/2 end mill, reground, not measured",
        "#7 drill",
        "1/2 end mill",
    ]
    assert [line["line"] for line in held] == [4, 5, 9, 10, 11]
    assert taken[0]["neck_mm"] == 6.35 and taken[0]["note"] == "colour: blue"
    assert taken[2]["marking"] == 'say "seven"'
    assert any("abc" in question for question in taken[3]["questions"])
    assert "colour" in done.err
    assert [line["file"] for line in crib("held-back", "--json").json["held_back"]] == [str(file)] * 5


def test_a_file_where_every_line_is_held_back_is_a_no(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "list.csv"
    file.write_text("1/2 end mill\nbox of drills\n")
    done = crib("take-in", "--file", str(file), "--json")
    assert done.status == 1
    assert [line["text"] for line in done.json["held_back"]] == ["1/2 end mill", "box of drills"]


def test_columns_without_a_unit_are_in_the_cribs(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "list.csv"
    file.write_text("kind;diameter;face_mm\nkeyseat-cutter;16;4\nkeyseat-cutter;3/4;4,5\n")
    cutters = crib("take-in", "--file", str(file), "--json", "--units", "mm").json["taken_in"]
    assert [(cutter["diameter_mm"], cutter["face_mm"]) for cutter in cutters] == [(16.0, 4.0), (19.05, 4.5)]


@pytest.mark.parametrize(
    "content", [b"", b"\n\n", b"kind,diameter\n", b"[]", b'{"cutters": []}', b"[1, 2", b"{}", b"[" * 5000]
)
def test_a_file_with_nothing_in_it_or_broken_json_is_refused(crib: Crib, tmp_path: Path, content: bytes) -> None:
    file = tmp_path / ("list.json" if content[:1] in (b"[", b"{") else "list.csv")
    file.write_bytes(content)
    done = crib("--json", "take-in", "--file", str(file))
    assert done.status == 2 and done.json["error"]["what"]


def test_what_find_prints_can_be_taken_in_again(crib: Crib, tmp_path: Path) -> None:
    crib(*KEYSEAT, "--measured", "neck", "--price", "12.50", "--note", "brass only", "--from", "gift")
    crib("take-in", "--kind", "tap", "--thread", "1/4-20", "--tap-chamfer", "plug", "--limit", "H3")
    file = tmp_path / "cutters.json"
    printed = crib("find", "--json")
    file.write_text(printed.out)
    again = crib("--crib", str(tmp_path / "other.db"), "take-in", "--file", str(file), "--json")
    assert again.json["taken_in"] == printed.json["cutters"]


def test_a_double_ender_keeps_both_ends(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "double.json"
    file.write_text(
        '[{"kind": "end-mill", "diameter_mm": 3.175, "shank_mm": 9.525, "ends": '
        '[{"diameter_mm": 3.175}, {"diameter_mm": 4.7625, "condition": "chipped"}]}]'
    )
    [cutter] = crib("take-in", "--file", str(file), "--json").json["taken_in"]
    assert [end["diameter_mm"] for end in cutter["ends"]] == [3.175, 4.7625]
    assert cutter["ends"][1]["condition"] == "chipped"
    assert cutter["label"] == "1/8 and 3/16 double-ended end mill"
    assert [cutter["id"]] == [one["id"] for one in crib("find", "3/16", "--json").json["cutters"]]


def test_an_old_list_is_read_as_far_as_its_signs_can_be_told(crib: Crib, tmp_path: Path) -> None:
    """A list in Latin-1 was read with sizes that nobody wrote: "Fächer 2" became a length. Words are read as the old
    code page has them, and it is said; a sign beside a digit could be any fraction, so that its line is held back."""
    file = tmp_path / "list.csv"
    file.write_bytes(b"kind,diameter,note\nend-mill,1/2,gr\xf6sser\nend-mill,3/8,\0\nend-mill,1\xac,\nend-mill,1/4,\n")
    done = crib("take-in", "--file", str(file), "--json")
    assert [line["line"] for line in done.json["held_back"]] == [3, 4]
    assert [one["note"] for one in done.json["taken_in"]] == ["grösser", None]
    assert "Windows-1252" in done.err
    assert "\\xac" in done.json["held_back"][1]["text"] or "\\udcac" in done.json["held_back"][1]["text"]


def test_a_list_of_words_in_latin_1_gets_no_size_that_nobody_wrote(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "list.txt"
    file.write_bytes("1/4 drill drawer Fächer 2 note für Messing\n".encode("latin-1"))
    [drill] = crib("take-in", "--file", str(file), "--json").json["taken_in"]
    assert (drill["drawer"], drill["note"], drill["overall_length_mm"]) == ("fächer 2", "für Messing", None)


@pytest.mark.parametrize("note", ["zero\u200bwidth", "soft\u00adhyphen", "joined \U0001f468\u200d\U0001f469",
                                  "long " * 900, "bell\x07", "\u202ertl"])
@pytest.mark.parametrize("form", ["json", "csv", "option"])
def test_a_note_is_kept_as_it_was_typed(crib: Crib, tmp_path: Path, note: str, form: str) -> None:
    """Signs that can't be shown, and more than 2,000 of them, were dropped with status 0."""
    note = note.strip()
    if form == "option":
        crib("take-in", "--kind", "drill", "--diameter", "1/4", "--note", note)
    else:
        file = tmp_path / f"list.{form}"
        file.write_text(json.dumps([{"kind": "drill", "diameter_mm": 6.35, "note": note}]) if form == "json" else
                        f'kind,diameter,note\ndrill,1/4,"{note}"\n', encoding="utf-8")
        crib("take-in", "--file", str(file))
    [drill] = crib("find", "--json").json["cutters"]
    assert drill["note"] == note
    assert all(sign.isprintable() or sign == "\n" for sign in crib("show", "1").out)


def test_what_a_cell_says_and_cannot_be_read_is_kept_whole(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "list.csv"
    file.write_text(f"kind,diameter,limit,neck\nend-mill,1/4,{'H' * 300},{'9' * 100}\n")
    crib("take-in", "--file", str(file))
    [mill] = crib("find", "--json").json["cutters"]
    assert "H" * 300 in mill["note"] and "9" * 100 in mill["note"]


def test_a_huge_field_is_held_back(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "list.csv"
    file.write_text("kind,diameter\n" + "x" * 300_000 + ",1\nend-mill,1/4\n")
    done = crib("take-in", "--file", str(file), "--json").json
    assert (len(done["taken_in"]), [line["line"] for line in done["held_back"]]) == (1, [2])


@pytest.mark.parametrize(("size", "why"), [
    ("-1/2", "diameter '-1/2' is not a length"), ("0", "diameter '0' is not above zero"),
    ("99999", "diameter '99999' is longer than any mill"), ("1e3", "diameter '1e3' is not a length"),
    ("1/0", "diameter '1/0' divides by zero"),
])
def test_a_size_in_a_table_that_is_none_is_named(crib: Crib, tmp_path: Path, size: str, why: str) -> None:
    """"It doesn't say what size" sends its owner looking for a size that is there."""
    file = tmp_path / "list.csv"
    file.write_text(f"kind,diameter\nend-mill,{size}\n", encoding="utf-8")
    done = crib("take-in", "--file", str(file), "--json")
    assert done.status == 1 and [one["why"] for one in done.json["held_back"]] == [why]


@pytest.mark.parametrize(("value", "why"), [
    ("-4", "diameter -4 is not a length in mm"), ("1e400", "diameter inf is not a length in mm"),
    ('"x"', "diameter_mm 'x' is not a number of mm"), ('"#7"', "diameter_mm '#7' is not a number of mm"),
    ('"letter F"', "diameter_mm 'letter F' is not a number of mm"),
])
def test_a_number_of_mm_is_no_letter(crib: Crib, tmp_path: Path, value: str, why: str) -> None:
    file = tmp_path / "list.json"
    file.write_text(f'[{{"kind": "end-mill", "diameter_mm": {value}}}]', encoding="utf-8")
    done = crib("take-in", "--file", str(file), "--json")
    assert done.status == 1 and [one["why"] for one in done.json["held_back"]] == [why]


def test_a_drills_letter_goes_where_no_unit_is_named(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "list.json"
    file.write_text('[{"kind": "drill", "diameter": "F"}, {"kind": "drill", "diameter_mm": "5.1"}]', encoding="utf-8")
    taken = crib("take-in", "--file", str(file), "--json").json["taken_in"]
    assert [one["diameter_mm"] for one in taken] == [pytest.approx(0.257 * 25.4), 5.1]


@pytest.mark.parametrize("name", ["list.csv", "list.txt", "list.json"])
@pytest.mark.parametrize("content", [b"PK\x03\x04kind,diameter\nend-mill,1/2\n", bytes(range(256)) * 8])
def test_a_file_that_is_not_text_is_refused_whole(crib: Crib, place: Path, tmp_path: Path, name: str, content: bytes
                                                  ) -> None:
    file = tmp_path / name
    file.write_bytes(content)
    done = crib("take-in", "--file", str(file), "--json")
    assert done.status == 2 and done.json["error"]["what"] == f"the file {file} isn't text"
    assert not place.exists()


def test_cells_are_read_like_words(crib: Crib, tmp_path: Path) -> None:
    """`Ball` became a square mill, `Rougher` a finishing one, and `resharpened` was no regrind."""
    file = tmp_path / "list.csv"
    file.write_text(
        "Type,Dia,Flutes,Steel,Condition,Remarks\n"
        "Ball,1/2,2,HSS,good,\n"
        "Rougher,3/4,4F,Cobalt M42,resharpened,\n"
        "4 flute end mill,about 3/8,,High Speed Steel,sharp,left hand\n"
        "Slot drill,6mm,,carbide,,one flute chipped\n"
        "end mill,1/2,,HSS TiN,,\"keep it sharp, wears well\"\n"
    )
    ball, rougher, four, slot, plain = crib("take-in", "--file", str(file), "--json").json["taken_in"]
    assert ball["corner_radius_mm"] == 6.35 and ball["condition"] == "used"
    assert (rougher["reground"], rougher["nominal_mm"], rougher["material"]) == (True, 19.05, "cobalt")
    assert rougher["flutes"] == 4 and "roughing" in rougher["note"]
    assert (four["flutes"], four["material"], four["hand"]) == (4, "hss", "left") and "about" in four["questions"][0]
    assert (slot["flutes"], slot["centre_cutting"], slot["condition"]) == (2, True, "chipped")
    assert plain["condition"] == "unknown" and plain["material"] == "hss" and "sharp" in plain["questions"][-1]


COLUMNS = "Type,Dia,Width of teeth,Dia of shank,Wd\nWoodruff,3/4,3/16,1/2,10\nBall,1/2,,1/2,2\nzorp,1,,,\n"


def test_headings_by_their_meaning_and_by_map(crib: Crib, tmp_path: Path) -> None:
    """`Width of teeth` went into the notes, and nobody could say what it was."""
    file = tmp_path / "list.csv"
    file.write_text(COLUMNS)
    done = crib("take-in", "--file", str(file), "--map", "Wd=flutes", "--json").json
    woodruff, ball = done["taken_in"]
    assert (woodruff["face_mm"], woodruff["shank_mm"], woodruff["flutes"]) == (4.7625, 12.7, 10)
    assert (ball["corner_radius_mm"], ball["flutes"]) == (6.35, 2)
    assert crib("take-in", "--file", str(file), "--map", "Wd=zz").status == 2
    [held] = crib("held-back", "--json").json["held_back"]
    right = crib("held-back", str(held["id"]), "--kind", "drill", "--json")
    assert right.status == 0 and crib("find", "drill", "--json").json["cutters"][0]["diameter_mm"] == 25.4


def test_a_file_is_checked_without_storing_anything(crib: Crib, tmp_path: Path) -> None:
    file, lines = tmp_path / "list.csv", tmp_path / "list.txt"
    file.write_text(COLUMNS)
    lines.write_text("1/2 end mill 4 flute\n404\nsame as last but 5/16\n")
    checked = crib("take-in", "--file", str(file), "--check", "--json")
    assert checked.status == 1 and [one["line"] for one in checked.json["would_take_in"]] == [2, 3]
    assert [one["line"] for one in checked.json["held_back"]] == [4]
    said = crib("take-in", "--file", str(lines), "--check")
    assert said.status == 1 and "line 1: 1/2 end mill, 4 flutes" in said.out and "line 2: held back" in said.out
    assert crib("find").status != 0


def test_of_a_long_table_the_first_thousand_are_told(crib: Crib, tmp_path: Path) -> None:
    """A hundred thousand lines need not be in memory, nor on the screen, at once; all are in the crib."""
    file = tmp_path / "long.csv"
    file.write_text("kind,diameter,drawer\n" + "".join(
        f"{'gizmo' if place % 2 else 'drill'},{place // 2 % 90 + 5}/64,A{place}\n" for place in range(2104)))
    done = crib("take-in", "--file", str(file))
    assert "and 52 more cutters, up to no. 1052; crib find --all shows them" in done.out
    assert "and 52 more lines held back; crib held-back lists them" in done.out
    found = crib("find", "--json").json["cutters"]
    assert sorted(one["drawer"] for one in found) == sorted(f"A{place}" for place in range(0, 2104, 2))
    held = crib("held-back", "--json").json["held_back"]
    assert [one["line"] for one in held] == list(range(3, 2106, 2))
    again = crib("take-in", "--file", str(file))
    assert (again.status, "all 2,104 lines were taken in before" in again.err) == (1, True)
    assert len(crib("take-in", "--file", str(file), "--again", "--json").json["taken_in"]) == 1052


LISTS = {
    "list.csv": "kind,diameter,flutes\nend-mill,6,2\n" + "drill,8,2\n" * 60,
    "list.json": '[{"kind": "end-mill", "diameter_mm": 6}]',
    "list.txt": "6 2 flute end mill\n",
}


@pytest.mark.parametrize("how", [*LISTS, "options", "words", "line by line"])
def test_a_crib_that_begins_in_millimetres_stays_in_them(
    crib: Crib, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, how: str
) -> None:
    """What its first list was said in is what its owner measures in; it is said, and how to change it."""
    if how in LISTS:
        (tmp_path / how).write_text(LISTS[how], encoding="utf-8")
        done = crib("take-in", "--units", "mm", "--file", str(tmp_path / how))
    elif how == "options":
        done = crib("--units", "mm", "take-in", "--kind", "end-mill", "--diameter", "6")
    elif how == "words":
        done = crib("take-in", "--units", "mm", "6 2 flute end mill")
    else:
        monkeypatch.setattr("sys.stdin", io.StringIO("6 2 flute end mill\n"))
        done = crib("take-in", "--units", "mm")
    assert "began a new crib in mm: bare sizes are in mm from here on; crib shop --units in changes that" in done.err
    assert crib("shop", "--json").json["units"] == "mm"
    assert crib("find", "--json").json["cutters"][0]["diameter_mm"] == 6.0
    crib("take-in", "7 2 flute end mill")
    assert [one["diameter_mm"] for one in crib("find", "7 mm", "--json").json["cutters"]] == [7.0]
    assert not (tmp_path / "backups").exists()


def test_a_crib_that_is_there_keeps_its_units(crib: Crib) -> None:
    assert "began a new crib\n" in crib("take-in", "3/8 2 flute end mill").err
    assert "began" not in crib("take-in", "--units", "mm", "6 2 flute end mill").err
    assert crib("shop", "--json").json["units"] == "in"


@pytest.mark.parametrize("name", ["list.csv", "drawers.txt"])
def test_a_file_that_is_said_as_a_cutter_is_told_how_it_is_read(crib: Crib, tmp_path: Path, name: str) -> None:
    """Its name was held back as a line that names no kind of cutter."""
    file = tmp_path / name
    file.write_text("1/2 2 flute end mill\n", encoding="utf-8")
    failed = crib("take-in", str(file))
    assert failed.status == 2 and f"{file} is a file, not a cutter" in failed.err and "began" not in failed.err
    assert f"crib take-in --file {file}" in failed.err
    file.unlink()
    assert "held back" in crib("take-in", str(file)).out, "where there is none it is a line like any other"
