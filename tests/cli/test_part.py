"""`crib part`: making a part, putting features to it, what can't be, undoing, and files in and out."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from crib.store import open_crib
from tests.cli.conftest import Crib

SAMPLE = Path(__file__).parent.parent.parent / "sample_crib" / "parts"


@pytest.fixture
def rest(begun: Callable[..., Crib]) -> Crib:
    """A part with a slot and two holes."""
    return begun(
        ("part", "rest", "--stock", "4 x 2 x 1", "--material", "1018"),
        ("part", "rest", "add", "slot", "--width", "1/2", "--depth", "1/4", "--at", "1", "--name", "guide"),
        ("part", "rest", "add", "hole", "--diameter", ".257", "--depth", "1", "--through", "--at", "1,.4; 3,.4"))


def features(crib: Crib) -> list[str]:
    return [one["name"] for one in crib("part", "rest", "drawing", "--json").json["drawing"]["features"]]


def test_a_part_is_made_and_features_are_put_to_it(rest: Crib) -> None:
    found = rest("part", "rest", "drawing", "--json").json
    assert found["part"] == "rest" and found["drawing"]["stock"]["length_mm"] == 101.6
    assert [(one["name"], one["kind"], len(one["places"])) for one in found["drawing"]["features"]] == [
        ("guide", "slot", 1), ("hole", "hole", 2)]
    assert rest("part", "--json").json["parts"][0]["part"] == "rest"
    assert rest("part", "REST", "drawing").status == 0


def test_a_question_asked_before_and_words_are_put_to_it(rest: Crib) -> None:
    rest("make", "slot", "--width", "3/8", "--depth", "1/8", "--material", "brass")
    number = str(rest("asked", "--json").json["questions"][0]["id"])
    assert rest("part", "rest", "add", number, "--at", "1-3/4", "--name", "second").status == 0
    assert rest("part", "rest", "add", "3/8 slot 1/8 deep", "--at", "1/4", "--name", "third").status == 0
    added = rest("part", "rest", "drawing", "--json").json["drawing"]["features"][2:]
    assert [(one["name"], one["texts"]) for one in added] == [
        ("second", {"width": "3/8", "depth": "1/8"}), ("third", {"width": "3/8", "depth": "1/8"})]


def test_something_else_is_said_of_a_feature(rest: Crib) -> None:
    """By its name or its number, with its kind's own options; what its kind isn't asked with is no option."""
    found = rest("part", "rest", "amend", "guide", "--depth", "3/8", "--at", "1-1/4", "--json").json
    assert found["drawing"]["features"][0]["texts"] == {"width": "1/2", "depth": "3/8"}
    assert found["drawing"]["features"][0]["places"][0]["across_mm"] == 31.75
    assert rest("part", "rest", "amend", "2", "--finish", "reamed").status == 0
    for words in (("guide", "--thread", "M6"), ("nix", "--depth", "1"), ("guide",), ("guide", "--depth", "2")):
        assert rest("part", "rest", "amend", *words).status == 2


def test_order_place_and_dropping(rest: Crib) -> None:
    before = rest("part", "rest", "before", "hole", "guide", "--json").json["order"]
    assert [(one["first"], one["then"]) for one in before] == [("hole", "guide")]
    moved = rest("part", "rest", "move", "guide", "--at", "1-1/4", "--json").json["drawing"]["features"][0]
    assert moved["places"][0]["across_mm"] == 31.75
    assert rest("part", "rest", "drop", "hole").status == 0 and features(rest) == ["guide"]
    assert rest("undo").status == 0 and features(rest) == ["guide", "hole"]
    assert rest("part", "rest", "drop", "--whole").status == 0 and rest("part").status == 1
    assert rest("undo").status == 0 and features(rest) == ["guide", "hole"]


@pytest.mark.parametrize(("words", "says"), [
    (("before", "guide", "hole"), "the order goes round in a circle"),
    (("add", "hole", "--diameter", "1/4", "--depth", "1/2", "--at", "7,1"), "outside the stock"),
    (("add", "slot", "--width", "1/2", "--depth", "1/4", "--at", "1"), "the same place"),
    (("add", "slot", "--width", "1/2x", "--depth", "1/4"), "'1/2x' is not a length"),
    (("add", "slott", "--width", "1/2"), "slott"),
    (("add", "99"), "no question 99 is remembered"),
    (("--material", "cheese"), "material 'cheese' is not known"),
    (("--stock", "4 x 2"), "stock '4 x 2' is no stock"),
    (("move", "guide"), "it isn't said where to"),
    (("move", "gide", "--at", "1"), "the part has no feature 'gide'"),
    (("drop",), "it isn't said what to take off"),
])
def test_what_cannot_be_is_a_sentence_and_changes_nothing(rest: Crib, words: tuple[str, ...], says: str) -> None:
    rest("part", "rest", "before", "hole", "guide")
    before = rest("part", "rest", "drawing", "--json").out
    failed = rest("part", "rest", *words)
    assert (failed.status, failed.out) == (2, "") and says in failed.err and "Traceback" not in failed.err
    assert json.loads(rest("part", "rest", *words, "--json").out)["error"]["what"]
    assert rest("part", "rest", "drawing", "--json").out == before


@pytest.mark.parametrize(("words", "face", "along", "across", "runs"), [
    (("1/8 slot 1/8 deep in the bottom, 1/4 from the left",), "bottom", 6.35, 0, "across"),
    (("1/8", "slot", "1/8", "deep", "1/4 from the back edge"), "top", 0, 44.45, "along"),
    (("1/4 hole 1/4 deep, 3-1/2 from the left, 12mm from the back",), "top", 88.9, 38.8, "along"),
    (("1/4 hole 1/4 deep in the left end, 1/2 up from the bottom and 1/4 from the front",), "left", 6.35, 12.7,
     "along"),
    (("1/4 hole 1/4 deep 1/4 from the right, 1/4 from the top", "--face", "front"), "front", 95.25, 6.35, "along"),
    (("1", "1/4 from the front"), "top", 0, 6.35, "along"),
])
def test_a_place_is_said_in_words(rest: Crib, words: tuple[str, ...], face: str, along: float, across: float,
                                  runs: str) -> None:
    """The words of a place were read as sizes of the feature, and asked what they are."""
    rest("make", "slot", "--width", "1/8", "--depth", "1/8", "--material", "brass")
    added = rest("part", "rest", "add", *words, "--name", "more", "--json").json
    [place] = added["drawing"]["features"][-1]["places"]
    assert (place["face"], place["runs"]) == (face, runs)
    assert (place["along_mm"], place["across_mm"]) == pytest.approx((along, across))
    assert "from the" in added["read_line"]


def test_what_was_read_of_words_comes_first(rest: Crib) -> None:
    shown = rest("part", "rest", "add", "1/8 slot 1/8 deep, 1/4 from the left")
    assert shown.out.startswith("Read      slot, width 1/8, depth 1/8; 1/4 from the left, across it\n\nrest\n")


@pytest.mark.parametrize(("words", "says"), [
    (("1/8 slot 1/8 deep",), ("where does it lie?", "--at 1, or '1 from the front'")),
    (("pocket 1 x 2 x 1/8 deep, 1/4 corners",), ("where does it lie?", "'2-1/2 from the left, 1 from the front'")),
    (("1/8 slot 1/8 deep 1 long, both ends closed",), ("where does it lie?", "--at '2-1/2, 1'")),
    (("slot", "--width", "1/8", "--depth", "1/8"), ("where does it lie?", "--at 1, or '1 from the front'")),
    (("1/8 slot 1/8 deep in the left end",), ("where does it lie?", "'1 from the top'")),
    (("1/8 slot 1/8 deep across it",), ("where does it lie?", "'1 from the left'")),
    (("1/4 hole 1/4 deep",), ("where does it lie?", "--at '2-1/2, 1', or '2-1/2 from the left, 1 from the front'")),
    (("1/4 hole 1/4 deep 1 from the left",), ("one way only", "from the front or back")),
    (("hole", "--diameter", "1/4", "--depth", "1/4", "--at", "1"), ("one way only",)),
    (("1/8 slot 1/8 deep 1 from the left, 3 from the right",), ("'1 from the left'", "'3 from the right'")),
    (("1/8 slot 1/8 deep along it 1 from the left",), ("'along it'", "'1 from the left'")),
    (("1/8 slot 1/8 deep along it, across it",), ("'along it'", "'across it'")),
    (("1/8 slot 1/8 deep in the top, in the front",), ("'in the top'", "'in the front'")),
    (("1/8 slot 1/8 deep 1/4 from the top",), ("'1/4 from the top' is no place on the top",)),
    (("1/8 slot 1/8 deep from the front",), ("'from the front' doesn't say how far",)),
    (("1/8 slot 1/8 deep 1/4 from the front", "--at", "1"), ("'1/4 from the front, along it'", "--at 1 too")),
    (("1/8 slot 1/8 deep 1/4 from the front", "--from", "back"), ("1/4 from the front", "--from back too")),
    (("1/8 slot 1/8 deep 1/4 from the front", "--runs", "across"), ("along it", "--runs across too")),
    (("1/8 slot 1/8 deep in the front", "--face", "top", "--at", "1/4"), ("in the front", "--face top too")),
])
def test_a_place_that_is_not_told_or_told_twice_is_asked(rest: Crib, words: tuple[str, ...], says: tuple[str, ...]
                                                         ) -> None:
    """Without a place it was told to lie outside the stock, and a hole lay on the corner."""
    before = rest("part", "rest", "drawing", "--json").out
    failed = rest("part", "rest", "add", *words)
    assert (failed.status, failed.out) == (2, "") and all(one in failed.err for one in says), failed.err
    assert rest("part", "rest", "drawing", "--json").out == before


def test_what_breaks_an_edge_lies_on_it_without_being_told(rest: Crib) -> None:
    assert rest("part", "rest", "add", "chamfer", "--size", "1/16").status == 0
    assert rest("part", "rest", "add", "facing", "--width", "2", "--depth", ".010").status == 0


def test_a_place_beside_a_question_in_the_other_unit_is_in_the_parts(rest: Crib) -> None:
    rest("make", "slot", "--width", "3", "--depth", "3", "--material", "brass", "--units", "mm")
    added = rest("part", "rest", "add", "1", "1/4 from the back", "--json").json["drawing"]["features"][-1]
    assert added["texts"]["width"] == "3" and added["places"][0]["across_mm"] == pytest.approx(44.45)


def test_bare_distances_are_in_the_parts_units(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "metric.toml"
    file.write_text('units = "mm"\nstock = "100 x 50 x 25"\nmaterial = "1018"\n', "utf-8")
    crib("part", "metric", "--from", str(file))
    added = crib("part", "metric", "add", "6mm slot 3mm deep, 12,5 from the back", "--json").json
    assert added["drawing"]["features"][0]["places"][0]["across_mm"] == pytest.approx(37.5)
    assert "--at 25, or '25 from the front'" in crib("part", "metric", "add", "6mm slot 3mm deep").err
    assert "so many inches, or mm?" in crib("part", "metric", "add", "6mm slot 3mm deep, 1 in from the left").err


@pytest.mark.parametrize("name", ["", " ", "a\nb"])
def test_a_part_needs_a_name_that_can_be_typed(crib: Crib, name: str) -> None:
    """An empty one was told as a fault of the file."""
    failed = crib("part", name, "--stock", "4 x 2 x 1")
    assert failed.status == 2 and "is no name for a part" in failed.err


def test_a_file_comes_back_word_for_word(rest: Crib, tmp_path: Path) -> None:
    slide, copy = SAMPLE / "slide.toml", tmp_path / "copy.toml"
    assert rest("part", "slide", "--from", str(slide)).status == 0
    assert rest("part", "slide", "--to", str(copy)).status == 0
    assert copy.read_text("utf-8") == slide.read_text("utf-8")
    assert rest("part", "slide", "--to", str(copy)).status == 2
    assert rest("part", "slide", "--from", str(SAMPLE / "index-plate.toml")).status == 2


def test_a_file_with_lines_that_cannot_be_read_is_kept_whole(crib: Crib, place: Path, tmp_path: Path) -> None:
    text = (SAMPLE / "slide.toml").read_text("utf-8").replace('width = "1/4+.002-0"', "width = 1/4")
    file = tmp_path / "bad.toml"
    file.write_text(text, "utf-8")
    failed = crib("part", "slide", "--from", str(file))
    assert failed.status == 2 and "'width = 1/4' can't be read" in failed.err and "line 4" in failed.err
    with open_crib(str(place)) as there:
        assert there.part("slide").text == text
    shown = crib("part", "slide", "drawing")
    assert shown.status == 2 and "gib screws" in shown.out and "'width = 1/4' can't be read" in shown.out


def test_a_part_that_somebody_else_changed_meanwhile_is_not_gone_over(place: Path, rest: Crib) -> None:
    with open_crib(str(place)) as one, open_crib(str(place)) as other:
        seen = one.part("rest")
        other.keep_part("rest", seen.text + "# theirs\n", seen.version)
        with pytest.raises(Exception, match="a moment ago"):
            one.keep_part("rest", seen.text + "# mine\n", seen.version)
    assert "# theirs" in rest("export", "--all", "--json").out


def test_backup_and_whole_document_carry_parts(rest: Crib, place: Path, tmp_path: Path) -> None:
    for name in ("copy.db", "copy.json"):
        assert rest("backup", "--to", str(tmp_path / name)).status == 0
        assert rest("restore", str(tmp_path / name), "--to", str(tmp_path / f"new-{name}.db")).status == 0
        with open_crib(str(place)) as one, open_crib(str(tmp_path / f"new-{name}.db")) as other:
            assert one.parts() == other.parts() and one.changes() == other.changes()


@pytest.mark.parametrize("words", [(), ("rest",), ("rest", "add"), ("rest", "add", "slot"), ("rest", "move"),
                                   ("rest", "drop"), ("rest", "before"), ("rest", "add", "3"),
                                   ("rest", "amend")])
def test_every_command_has_help(crib: Crib, words: tuple[str, ...]) -> None:
    shown = crib("part", *words, "--help")
    assert shown.status == 0 and "Usage: crib part" in shown.out


def test_what_cannot_lie_so_is_kept_told_and_put_right_one_by_one(crib: Crib, tmp_path: Path) -> None:
    """With two faults in a file neither could be mended by itself, for each change was held against the other."""
    block = '[[feature]]\nname = "{}"\nkind = "hole"\ndiameter = "1/4"\ndepth = "1/2"\nat = "{}"\n'
    file = tmp_path / "two.toml"
    file.write_text('stock = "4 x 2 x 1"\n' + block.format("a", "7, 1") + block.format("b", "1, 9"), "utf-8")
    failed = crib("part", "two", "--from", str(file))
    assert failed.status == 2 and "a: lies outside the stock" in failed.err and "1 more" in failed.err
    assert crib("part", "two", "drawing").status == 2 and crib("part", "two").status == 2
    assert crib("part", "two", "move", "a", "--at", "1, 1").status == 2
    assert crib("part", "two", "move", "b", "--at", "2, 1").status == 0
    assert crib("part", "two", "drawing", "--json").json["findings"] == []


def test_a_part_without_features_says_how_one_comes_to_it(crib: Crib) -> None:
    """It said that nothing in the crib makes it."""
    crib("part", "plate", "--stock", "4 x 2 x 1", "--material", "1018")
    page = crib("part", "plate").out
    assert "nothing to make yet" in page and "crib part plate add" in page
