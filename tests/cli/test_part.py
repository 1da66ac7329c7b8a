"""`crib part`: making a part, putting features to it, what can't be, undoing, and files in and out."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from crib.store import open_crib
from tests.cli.conftest import Crib

SAMPLE = Path(__file__).parent.parent.parent / "sample_crib" / "parts"


@pytest.fixture
def rest(crib: Crib) -> Crib:
    """A part with a slot and two holes."""
    assert crib("part", "rest", "--stock", "4 x 2 x 1", "--material", "1018").status == 0
    crib("part", "rest", "add", "slot", "--width", "1/2", "--depth", "1/4", "--at", "1", "--name", "guide")
    crib("part", "rest", "add", "hole", "--diameter", ".257", "--depth", "1", "--through", "--at", "1,.4; 3,.4")
    return crib


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
