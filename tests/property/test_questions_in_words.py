"""Laws of reading questions in words: whatever is said of a kind in any of several ways reads back the same; what was
read, typed again, reads the same; a word that isn't known changes nothing; where a phrase stands doesn't matter; and no
line brings the reader down or is read otherwise by the quick way."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.features import KINDS
from crib.features.base import FeatureKind
from crib.findings.errors import CribError
from crib.handbook import mates
from crib.handbook.sizes import read_size
from crib.intake.questions import read_question, reading
from crib.intake.questions.vocabulary import labels, tells
from tests.questions_in_words import BENCH, OTHERS, TYPED, cases, judged

MATERIALS = ("grey iron", "1018", "brass", "6061-T6", "stainless 303", "delrin", "4140 prehard", "silver steel", "O-1")
STRANGERS = ("zorpy", "blivet", "quux", "fnord", "gizmoid")
LENGTHS = ("3/8", ".375", "1/4 +.002 -0", ".500/.502", "10mm", "about .62", "1-1/4", "5/8 to .627", "16mm ±.02",
           "3/4in", "12mm H7")
_WORDS = """slot t-slot hole tapped 3/8 1/4-20 deep wide x , of in brass 12H7 about to between and +.002 -0 606 shaft 1
/ - . #7 m6 fit sliding tongue two half inch mm closed ends ( ) 45 ° degrees for a with @ wall"""
WORDS = _WORDS.split()
COMMON = {"length": ("4", "2-1/2", "60mm"), "count": ("3", "12"), "hours": ("6",), "hardness": ("45 HRC",),
          "floor_radius": ("1/32",), "below": ("1/8",), "use": ("cover",)}


def told(kind: FeatureKind, key: str) -> bool:
    """Whether a key is told by its own example alone, and isn't a length."""
    return key in {one.key for one in (*kind.options, *kind.standards)} or key in {one.key for one in kind.angles}


@st.composite
def requests(draw: st.DrawFn) -> tuple[str, dict[str, str]]:
    """A kind, each of its needed sizes and some of the others."""
    kind = KINDS[draw(st.sampled_from(sorted(KINDS)))]
    texts = {}
    for key, example in kind.example.items():
        texts[key] = example if told(kind, key) else draw(st.sampled_from(LENGTHS))
    others = [one.key for one in kind.sizes if one.key not in texts and one.key not in kind.one_of]
    for key in draw(st.lists(st.sampled_from(others), max_size=2, unique=True)) if others else ():
        texts[key] = draw(st.sampled_from(LENGTHS))
    for key, values in COMMON.items():
        free = key not in texts and (key != "count" or kind.speech.counts == key)
        if free and draw(st.integers(0, 5)) == 0:
            texts[key] = draw(st.sampled_from(values))
    texts["material"] = draw(st.sampled_from(MATERIALS))
    if len(kind.ends) > 1 and draw(st.booleans()):
        texts["ends"] = draw(st.sampled_from(kind.ends))
    return kind.name, texts


def telling(kind: str) -> set[str]:
    """Words that say something more than a name."""
    return {word for said in tells(kind) for word in said.split()}


def ways(kind: str, key: str, text: str) -> list[str]:
    """How a shop may say one thing of a kind, each way sure of its own."""
    name = key.replace("_", " ")
    said = {"material": [f"in {text}", f"out of {text}", f"material {text}", f"made of {text}"],
            "ends": {"open": ["open ends", "both ends open"], "one": ["closed at one end", "one end open"],
                     "closed": ["closed both ends", "both ends closed", "closed at both ends"]}.get(text, []),
            "count": [f"{text} off", f"qty {text}", f"{text} pcs"], "hours": [f"{text} hours in it", f"hours {text}"],
            "hardness": [text, f"hardness {text}"], "use": [f"used for {text}", f"use {text}"],
            "through": ["through", "thru"]}
    if key in said:
        return said[key]
    found = [f"{name} {text}"]
    if KINDS[kind].sizes and key in {one.key for one in KINDS[kind].sizes}:
        found += [f"{name}: {text}", f"{name} = {text}", f"{text} {name}"]
        words = [word for word, label in labels(kind).items() if label.keys == (key,) and not label.is_several
                 and not set(word.split()) & telling(kind)]
        found += [f"{text} {word}" for word in words if labels(kind)[word].follows][:3]
        found += [f"{word} {text}" for word in words if not labels(kind)[word].follows][:3]
    return found


def rendered(name: str, texts: dict[str, str], seed: int) -> str:
    """A question in words: its phrases in some order, each said in some way, the name anywhere among them."""
    dice = random.Random(seed)
    phrases = [dice.choice(ways(name, key, text)) for key, text in texts.items()]
    said = [one for one in KINDS[name].speech.names if one not in KINDS[name].speech.common
            and not set(one.split()) & telling(name)]
    phrases.append(dice.choice([name, name.replace("-", " "), *said[:4]]))
    dice.shuffle(phrases)
    return ", ".join(phrases)


def same(name: str, one: str, other: str) -> bool:
    """Whether two texts say the same size, or the same words."""
    if " ".join(one.lower().split()) == " ".join(other.lower().split()):
        return True
    try:
        both = [read_size(text, "in", name, (-0.1, 0.1), (-0.2, 0.2)) for text in (one, other)]
    except CribError:
        return False
    return both[0].nominal == both[1].nominal and both[0].lo == both[1].lo and both[0].hi == both[1].hi


def goes_through(name: str, line: str, texts: dict[str, str]) -> bool:
    """Whether its depth is said as the thickness of what it is in: then it goes through. Common practice, no source."""
    thick = labels(name).get("thick")
    return (any(one.key == "through" for one in KINDS[name].options) and thick is not None and thick.keys == ("depth",)
            and not {"below", "through"} & texts.keys()
            and any(said in line for word in ("thick", "thickness", "thk", "plate")
                    for said in (f"{texts['depth']} {word}", f"{word} {texts['depth']}")))


@given(requests(), st.integers(0, 10**6))
@settings(max_examples=250)
def test_a_request_in_words_reads_back(asked: tuple[str, dict[str, str]], seed: int) -> None:
    name, texts = asked
    line = rendered(name, texts, seed)
    read = read_question(line)
    assert read.kind == name and not read.asks, (line, read)
    if goes_through(name, line, texts):
        texts = texts | {"through": "yes"}
    assert read.texts.keys() == texts.keys(), (line, read.texts)
    assert all(same(key, read.texts[key], text) for key, text in texts.items()), (line, read.texts)


@pytest.mark.parametrize("line", ["hole 3/8, 1/2 thick, below 1/8", "hole 3/8, below 1/8, 1/2 thick"])
def test_what_stays_below_may_be_said_after_how_thick_it_is(line: str) -> None:
    """A hole that leaves metal below it went through where that was said last."""
    assert read_question(line).texts == {"diameter": "3/8", "depth": "1/2", "below": "1/8"}


@given(requests(), st.integers(0, 10**6))
@settings(max_examples=100)
def test_what_was_read_typed_again_reads_the_same(asked: tuple[str, dict[str, str]], seed: int) -> None:
    first = read_question(rendered(*asked, seed))
    again = read_question(first.echo)
    assert (again.kind, again.texts, again.echo) == (first.kind, first.texts, first.echo) and not again.asks
    assert again.unused == ()


@given(requests(), st.integers(0, 10**6), st.sampled_from(STRANGERS), st.integers(0, 30))
@settings(max_examples=150)
def test_a_word_that_is_not_known_changes_nothing(asked: tuple[str, dict[str, str]], seed: int, word: str,
                                                  place: int) -> None:
    """It is told; what was read of the others stays, or is asked about."""
    line = rendered(*asked, seed)
    phrases = line.split(", ")
    phrases.insert(place % (len(phrases) + 1), word)
    first, more = read_question(line), read_question(", ".join(phrases))
    assert more.kind == first.kind and more.texts == first.texts, (more, line)
    assert word in more.unused or more.asks


@given(st.sampled_from([case for case in cases() if case.kind]), st.sampled_from(STRANGERS), st.integers(0, 40))
@settings(max_examples=150)
def test_nor_among_the_words_of_a_shop(case, word: str, place: int) -> None:  # type: ignore[no-untyped-def]
    """Anywhere between two words: nothing that was read becomes something else; a figure that it parts from its name
    may be asked about or left to be asked for."""
    words = case.said.split()
    words.insert(place % (len(words) + 1), word)
    first, more = read_question(case.said), read_question(" ".join(words))
    if more.asks:
        return
    assert more.kind == first.kind, words
    for key in more.texts.keys() & first.texts.keys() - {"to", "use", "mating"}:
        assert same(key, more.texts[key], first.texts[key]), (words, more.texts)


@given(st.text(max_size=60) | st.lists(st.sampled_from(
    WORDS), max_size=14).map(
        " ".join))
@settings(max_examples=300)
def test_no_line_brings_the_reader_down(line: str) -> None:
    """And every figure is in what was read, or something is asked."""
    found = read_question(line)
    assert found.kind or found.asks
    if not found.asks:
        import re

        figures = re.findall(r"\d+", reading.in_figures(line))
        said = re.findall(r"\d+", found.echo)
        assert not [one for one in figures if one not in said], (line, found.echo)


@pytest.mark.parametrize("case", [case for case in cases() if case.kind], ids=lambda case: case.said[:40])
def test_the_quick_way_reads_as_the_whole(case) -> None:  # type: ignore[no-untyped-def]
    """A question by a kind's own name is read without loading the others; that changes nothing."""
    line = reading.in_figures(" ".join(reading.in_signs(case.said).split()))
    quick, whole = reading._read(line, False), reading._read(line, True)
    if quick is not None and not quick.strange and not quick.asks:
        assert whole is not None and (quick.kind, quick.texts) == (whole.kind, whole.texts)


@pytest.mark.parametrize("case", [*cases(), *cases(OTHERS), *cases(BENCH), *cases(TYPED)],
                         ids=lambda case: case.said[:40])
def test_what_a_shop_says(case) -> None:  # type: ignore[no-untyped-def]
    """Each is read, or asked about where it must be; none is wrong in silence."""
    assert judged(case)[0] in ("read", "asked"), judged(case)


@pytest.mark.parametrize("kind", ["step", "slot", "chamfer", "woodruff"])
@pytest.mark.parametrize("side", ["left", "right", "front", "back"])
def test_a_side_that_is_not_understood_is_told(kind: str, side: str) -> None:
    """`on the left` says where a step is; it was passed over in silence, so that the step went where it was cheapest,
    or to where `--at` counts from. Nothing else of the line changes."""
    line = ", ".join([kind, *(f"{key} {text}" for key, text in KINDS[kind].example.items())])
    plain, more = read_question(line), read_question(f"{line} on the {side}")
    assert not more.asks and more.texts == plain.texts and more.unused == (side,)


@given(st.sampled_from([(n, of) for of in (4, 8, 16, 32, 64) for n in range(1, of, 2)]), st.sampled_from(" -"))
def test_a_figure_with_its_parts_in_words_is_the_fraction(size: tuple[int, int], joint: str) -> None:
    """`3 eighths`, as a program that takes dictation writes it, was 3-1/8 in silence."""
    part = {4: "quarters", 8: "eighths", 16: "sixteenths", 32: "thirty-seconds", 64: "sixty-fourths"}[size[1]]
    said = part.replace("-", joint)
    for line, text in ((f"{size[0]} {said} slot 1/4 deep", f"{size[0]}/{size[1]}"),
                       (f"slot 1/4 deep, 1 and {size[0]} {said} wide", f"1-{size[0]}/{size[1]}")):
        read = read_question(line)
        assert not read.asks and dict(read.texts) == {"width": text, "depth": "1/4"}, line


@pytest.mark.parametrize("line", ["3 quarter slot 1/4 deep", "3 quarter zorpy slot 1/4 deep", "4 quarter inch slots",
                                  "three quarter inch zorpy slots", "slot 3 eighth wide 1/4 deep"])
def test_a_figure_before_one_part_is_asked_about(line: str) -> None:
    """It is a count, a fraction, or what stands before one: it was the last in silence; and a word that isn't known
    took the question away."""
    assert [one for one in read_question(line).asks if "how many of one" in str(one)], line


def test_a_count_before_halves() -> None:
    """`two half inch slots` was a slot 2/2 wide."""
    read = read_question("two half-inch slots 1/4 deep")
    assert dict(read.texts) == {"width": "1/2in", "depth": "1/4", "count": "2"}


@pytest.mark.parametrize("word", mates.WORDS)
def test_every_word_for_a_fit_is_read(word: str) -> None:
    """A question knew fewer of them than the table of fits: a `close fit` wasn't read, and the fit was asked for."""
    read = read_question(f"slot 1/4 deep, a {word} fit on a tongue .4975")
    assert (read.texts["fit"], read.unused, read.asks) == (word, (), ())


SIZES = st.tuples(st.integers(2, 40), st.integers(2, 40)).filter(lambda pair: pair[0] < pair[1]).map(
    lambda pair: tuple(f"{n / 32:.4f}".removeprefix("0") for n in pair))


@given(st.sampled_from([(kind.name, larger) for kind in KINDS.values() for larger in kind.speech.above]), SIZES,
       st.sampled_from(("{kind} {other} {name} {one}", "{kind} {one} {name} {other}", "{kind} {name} {one} {other}",
                        "{kind} {other} {name} {one} in brass", "{kind}, {one} {name}, {other}",
                        "{kind}, {other}, {name} {one}", "{other} {kind} {name} {one}")), st.booleans(), st.data())
def test_a_size_is_never_read_as_less_than_one_that_it_is_always_above(
    which: tuple[str, str], sizes: tuple[str, str], way: str, is_larger: bool, data: st.DataObject
) -> None:
    """`internal keyway 3/16 bore 5/8` was a keyseat 5/8 wide in a bore of 3/16: no such thing can be. Whichever of the
    two has a name, and wherever its value stands, each is what it can be, or is asked about."""
    name, larger = which
    smaller = KINDS[name].speech.above[larger][0]
    key = larger if is_larger else smaller
    said = data.draw(st.sampled_from([word for word, label in labels(name).items() if label.keys == (key,)
                                      and not label.is_several and not set(word.split()) & telling(name)]))
    called = data.draw(st.sampled_from((name, *KINDS[name].speech.names)))
    one, other = (sizes[1], sizes[0]) if is_larger else sizes
    if labels(name)[said].follows:  # `3/4 across`, never `across 3/4`
        way = way.replace("{name} {one}", "{one} {name}")
    read = read_question(way.format(kind=called, name=said, one=one, other=other))
    if read.kind == name and not read.asks and {larger, smaller} <= read.texts.keys():
        assert [read.texts[one].removesuffix("in") for one in (smaller, larger)] == [*sizes], read


@pytest.mark.parametrize(("line", "bore", "width"), [
    ("internal keyway 3/16 bore 5/8", "5/8", "3/16"), ("internal keyway 5/8 bore 3/16", "5/8", "3/16"),
    ("internal keyseat 3/16 bore 5/8 hub 1", "5/8", "3/16"), ("hub keyway .125 bore .500", ".500", ".125"),
    ("internal keyway bore 5/8 3/16", "5/8", "3/16"), ("bore keyway 5 mm bore 16 mm", "16mm", "5mm"),
    ("3/16 internal keyway bore 5/8", "5/8", "3/16"),
])
def test_a_bore_is_wider_than_its_keyway(line: str, bore: str, width: str) -> None:
    """Whichever stands first."""
    read = read_question(line)
    assert (read.texts["bore"], read.texts["width"]) == (bore, width)


@pytest.mark.parametrize("line", ["chamfer the hole 1/2 dia .03", "chamfer the hole .03 1/2 dia",
                                  "chamfered hole 1/2 x .03", "chamfer on a hole, 3/4 diameter, .06",
                                  "deburred hole 12 mm dia 0.5 mm"])
def test_how_far_a_hole_is_chamfered_is_not_its_hole(line: str) -> None:
    """It was read in silence as a hole of .03 under a rim of 1/2; a rim and a hole that are said outright are read."""
    [asked] = read_question(line).asks
    assert "little beside" in str(asked)


@pytest.mark.parametrize("line", ["chamfer the hole, rim 1/2, hole .03", "chamfer the hole 1/2 dia, hole .03"])
def test_a_hole_that_is_said_outright_is_believed(line: str) -> None:
    read = read_question(line)
    assert not read.asks and dict(read.texts) == {"diameter": "1/2", "hole": ".03"}


def test_a_rim_and_its_hole_are_told_by_their_sizes() -> None:
    """Whichever the name stands by: a rim is wider than its hole."""
    assert dict(read_question("chamfer the hole 1/2 dia .56").texts) == {"diameter": ".56", "hole": "1/2"}


@pytest.mark.parametrize(("line", "ends"), [
    ("slot 1/2 wide 3/8 deep 2 long, corners at the closed end 1/8", None),
    ("slot 1/2 wide 3/8 deep 2 long, closed at one end, corners at the closed end 1/8", "one"),
])
def test_an_end_that_names_a_size_says_nothing_of_ends(line: str, ends: str | None) -> None:
    read = read_question(line)
    assert not read.asks and read.texts["corner_radius"] == "1/8" and read.texts.get("ends") == ends
