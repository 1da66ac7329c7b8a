"""A part's text: out and in again it is the same part; a line that can't be read takes nothing else with it; a change
leaves every other line as its owner wrote it."""

from __future__ import annotations

import re
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.app.part.on_file import read_text
from crib.parts import edit
from crib.parts.blocks import blocks_of, spelt
from crib.parts.part import Face, Part, Place, Placed, Runs, Stock
from crib.parts.toml import OWN_KEYS, part_from_toml
from crib.planning.ask import fields
from crib.render.words import told
from crib.sample import parts
from crib.shop import Shop
from tests.parts.written import part_to_toml

WORDS = st.text(st.characters(blacklist_categories=("Cs",)), min_size=1, max_size=12).map(str.strip).filter(bool)
MM = st.integers(1, 3_000_000_000).map(lambda nanometres: nanometres / 1e6)
AT = st.integers(-50_000_000, 3_000_000_000).map(lambda nanometres: nanometres / 1e6)
TURNED = st.sampled_from([None, True, False])
PLACES = st.builds(Place, st.sampled_from([*Face]), AT, AT, st.sampled_from([*Runs]), MM, TURNED)


@st.composite
def whole_parts(draw: st.DrawFn) -> Part:
    names = draw(st.lists(WORDS, max_size=4, unique=True))
    features = []
    for at, name in enumerate(names):
        place = draw(PLACES)
        more = tuple(Place(place.face, draw(AT), draw(AT), place.runs, place.level, place.turned)
                     for _ in range(draw(st.integers(0, 2))))
        texts = {"width": draw(WORDS), "depth": draw(WORDS)} | ({"count": str(1 + len(more))} if more else {})
        features.append(Placed(name, draw(st.sampled_from(["slot", "hole"])), texts, place,
                               draw(st.sampled_from(["in", "mm"])), tuple(names[:at][:1]), more))
    bar = draw(st.booleans())
    size = draw(MM)
    stock = Stock(draw(MM), size, size, size) if bar else Stock(draw(MM), draw(MM), draw(MM))
    return Part(draw(WORDS), stock, draw(st.sampled_from(["", "1018", "grey iron"])), tuple(features),
                draw(st.integers(0, 99)) / 4, draw(WORDS), draw(WORDS), draw(st.sampled_from(["in", "mm"])),
                tuple(draw(st.lists(WORDS, max_size=2))), draw(st.sampled_from(["front left", "back right"])))


@settings(max_examples=120, deadline=None)
@given(whole_parts())
def test_out_and_in_again_it_is_the_same(one: Part) -> None:
    """To the nanometre; and to any reader of TOML it is TOML."""
    text = part_to_toml(one)
    assert tomllib.loads(text)["name"] == one.name
    read = part_from_toml(text)
    assert not read.unread and read.part == one
    assert part_to_toml(read.whole) == text


@given(st.text(st.characters(blacklist_categories=("Cs",))))
def test_any_text_is_spelt_so_that_it_reads_back(text: str) -> None:
    assert tomllib.loads(f"a = {spelt(text)}\n") == {"a": text}
    assert "\n" not in spelt(text)


SLIDE = parts()["slide"]


def test_blocks_together_are_the_text_and_read_as_the_whole_does() -> None:
    for text in parts().values():
        assert "".join(block.text for block in blocks_of(text)) == text
        whole = tomllib.loads(text, parse_float=str)
        assert [one["kind"] for one in whole["feature"]] == [one.kind for one in part_from_toml(text).whole.features]


LINES = [at for at, line in enumerate(SLIDE.splitlines()) if "=" in line and not line.startswith("stock")]


@pytest.mark.parametrize("garbage", ["width = 1/2", "???", 'at = "', "= 3", "depth = [1,", "kind kind"])
@settings(max_examples=15, deadline=None)
@given(st.sampled_from(LINES))
def test_a_line_that_cannot_be_read_takes_nothing_else_with_it(garbage: str, at: int) -> None:
    """It is told with its number; the other features are there as before, and the text still has every line."""
    lines = SLIDE.splitlines()
    lines[at] = garbage
    text = "\n".join(lines) + "\n"
    read = part_from_toml(text)
    before = part_from_toml(SLIDE).whole
    assert any(re.match(r"line \d+: ", told(one, "in")[0]) for one in read.unread)
    assert read.part is not None and len(read.part.features) >= len(before.features) - 1
    kept = {one.name: one for one in before.features}
    assert all(kept.get(one.name) == one for one in read.part.features if one.name in kept)
    assert "".join(block.text for block in blocks_of(text)) == text


@pytest.mark.parametrize(("line", "says", "right"), [
    ('stock = "6 x 3"', "line 3: stock '6 x 3' is no stock", "4 x 2 x 1"),
    ('material = "cheese"', "line 4: material 'cheese' is not known", "mild steel"),
    ("hours = -2", "line 7: hours -2 are no number", "hours = 6"),
    ('colour = "red"', "a part has no 'colour'", "one of"),
    ('datum = "middle"', "datum 'middle' is no corner", "front left"),
])
def test_what_is_wrong_with_the_head_is_told_with_its_line(line: str, says: str, right: str) -> None:
    key = line.split(" = ")[0]
    text = re.sub(rf"^{key} = .*$", line, SLIDE, flags=re.MULTILINE)
    text = text if line in text else SLIDE.replace("\n\n", f"\n{line}\n\n", 1)
    [fault] = [told(one, "in") for one in part_from_toml(text).unread]
    assert says in fault[0] and right in fault[1]


@pytest.mark.parametrize(("was", "line", "says", "right"), [
    ('kind = "t-slot"', 'kind = "t-slt"', "'t-slt' is not a kind of feature", "did you mean t-slot"),
    ('throat = "5/8+.002-0"', 'throat = "5/8x"', "'5/8x' is not a length", ".410"),
    ('throat = "5/8+.002-0"', 'thraot = "5/8"', "isn't asked with 'thraot'", "did you mean throat"),
    ('name = "dovetail"', 'name = "T-slot"', "two features are called 'T-slot'", "another name"),
    ('at = "1-1/2"', 'at = "1-1/2, 2, 3"', "is no place", "along, across"),
    ('face = "bottom"', 'face = "under"', "face 'under' is not known", "bottom"),
])
def test_what_is_wrong_with_a_feature_is_told_with_its_line_and_the_rest_is_read(
        was: str, line: str, says: str, right: str) -> None:
    text = SLIDE.replace(was, line, 1)
    number = SLIDE[: SLIDE.index(was)].count("\n") + 1
    read = read_text(text, Shop(), "slide")
    found = [told(one, "in") for one in read.unread]
    assert any(f"line {number}: " in what and says in what and right in help for what, help in found), found
    assert len(read.whole.features) == 8


def test_a_change_leaves_every_other_line_as_it_was() -> None:
    moved = edit.changed(SLIDE, "key", {"at": "1, 1"})
    assert [(a, b) for a, b in zip(SLIDE.splitlines(), moved.splitlines(), strict=True) if a != b] == [
        ('at = "2-1/4, 1/2"        # from the back: where the gauge block keys on',
         'at = "1, 1"        # from the back: where the gauge block keys on')]
    more = edit.with_feature(SLIDE, {"name": "x", "kind": "slot", "width": "1/2"})
    assert more.startswith(SLIDE) and edit.without(more, "x") == SLIDE
    assert edit.names_in(more) == [*edit.names_in(SLIDE), "x"]


@pytest.mark.parametrize(("corner", "at", "along", "across"), [
    ("front left", "10, 5", 10, 5), ("back left", "10, 5", 10, 55), ("front right", "10, 5", 90, 5),
    ("back right", "10, 5", 90, 55)])
def test_a_place_counts_from_its_corner(corner: str, at: str, along: float, across: float) -> None:
    text = (f'stock = "100 x 60 x 40"\nunits = "mm"\ndatum = "{corner}"\n[[feature]]\nkind = "hole"\n'
            f'diameter = "6"\ndepth = "5"\nat = "{at}"\n')
    [one] = part_from_toml(text).whole.features
    assert (one.place.along, one.place.across) == (along, across)
    run = text.replace('kind = "hole"\ndiameter = "6"', 'kind = "slot"\nwidth = "6"\nlength = "30"')
    [one] = part_from_toml(run).whole.features
    assert one.place.along == (10 if "left" in corner else 60)


def test_no_kind_is_asked_with_what_says_where_it_lies() -> None:
    from crib.features import KINDS

    clash = {field.name for kind in KINDS.values() for field in fields(kind)} & {*OWN_KEYS} - {"kind"}
    assert not clash


VALUES = st.sampled_from(["3", "true", "[1, [2]]", '"x"', '""', "{a = 1}", "1979-05-27", "inf", "nan", "-1", '"1e9"',
                          '"0"', "[]", '["", "1,2"]', '"1,2;3,4"', "99999999999", '"\\u0000"', '"front"', '"3/0"'])
KEYS = st.sampled_from([*OWN_KEYS, "stock", "hours", "material", "notes", "datum", "width", "depth", "length", "ends",
                        "number", "thread", "count", "wall", "below"])
STRAY = st.sampled_from(["[feature.x]", "feature = 3", "[[stock]]", '"""', "[[feature]]"])


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, len(SLIDE.splitlines()) - 1),
                          st.one_of(STRAY, st.builds("{} = {}".format, KEYS, VALUES))), min_size=1, max_size=3))
def test_whatever_stands_there_is_told_and_never_a_fault_of_the_program(lines: list[tuple[int, str]]) -> None:
    """`notes = true` was one."""
    text = SLIDE.splitlines()
    for at, line in lines:
        text[at] = line
    read = read_text("\n".join(text) + "\n", Shop(), "slide")
    assert all(said for one in read.unread for said in told(one, "in")[:1])
    edit.names_in("\n".join(text) + "\n")


def test_one_that_cannot_be_read_is_not_told_as_one_that_there_is_not() -> None:
    """A place that couldn't be read took the whole feature with it, and what was to come after that was told of
    instead: that there is no such feature."""
    text = 'name = "plate"\nstock = "4 x 2 x 1"\n\n[[feature]]\nkind = "hole"\ndiameter = "1/4"\ndepth = "1/2"\n' \
        'at = "1 x 1"\n\n[[feature]]\nkind = "slot"\nwidth = "1/2"\ndepth = "1/4"\nat = "3/4"\nafter = ["hole"]\n'
    unread, = part_from_toml(text).unread
    says, fix = told(unread, "in")
    assert "1 x 1" in says and "no place" in says and "along, across" in fix
