"""What may not change how a line is read: where the place stands, words that say nothing, the order and the spelling,
and reading aloud what was read."""

from __future__ import annotations

from random import Random

import pytest

from crib.cutters.base import Cutter
from crib.intake.shorthand import Line, Shop, read_line
from crib.intake.shorthand.confirm import described
from crib.intake.spoken import is_spoken
from tests.shop_talk import Case, cases

CLEAR = [case for case in cases() if case.kind and case.count == 1]
_FREE = ("note", "questions", "label", "drawer", "assumed", "marking", "id")
_PIECES = "= & - a an and by cap deg degree ea em flat for h7 in inch is less mm no. number of off point the thou to x"
_JOINED = frozenset((*_PIECES.split(" "), "x3", "queue"))
_WHERE = frozenset({"center", "centre", "left", "right", "small", "big", "top", "bottom"})


def values(line: Line, free: tuple[str, ...] = _FREE) -> list[dict[str, object]]:
    """What was read, without what may be told otherwise."""
    return [{key: value for key, value in one.cutter.as_json().items() if key not in free} for one in line.taken]


def gaps(said: str) -> list[int]:
    """Places between words that aren't inside a number or a phrase."""
    words = said.lower().split()
    return [at for at in range(len(words) + 1) if at in (0, len(words)) or words[at - 1].endswith((",", ";")) or not (
        {words[at - 1], words[at]} & _JOINED or any(is_spoken(word.strip(",")) for word in words[at - 1 : at + 1])
        or words[at][0].isdigit() or words[at - 1][-1].isdigit())]


def put(said: str, words: str, at: int) -> str:
    parts = said.split()
    return " ".join((*parts[:at], words, *parts[at:]))


@pytest.mark.parametrize("case", [case for case in CLEAR if "drawer" not in dict(case.fields)], ids=str)
def test_where_the_place_stands_changes_nothing(case: Case) -> None:
    """`drawer two` before a size made it a mixed number, and a place in the middle kept a size from its name."""
    plain = values(read_line(case.said, Shop()))
    for at in gaps(case.said):
        if {word.lower() for word in case.said.split()[max(0, at - 1) : at + 1]} & _WHERE:
            continue
        for place, named in (("drawer B3", "B3"), ("top left drawer", "top left drawer"), ("drawer 12", "12")):
            line = read_line(put(case.said, place, at), Shop())
            assert values(line) == plain, put(case.said, place, at)
            assert [one.cutter.drawer for one in line.taken] == [named] * len(plain)


@pytest.mark.parametrize("case", CLEAR, ids=str)
def test_a_word_that_says_nothing_changes_nothing(case: Case) -> None:
    """A word that isn't known kept a size from its name, and was not told."""
    plain = read_line(case.said, Shop())
    for at in gaps(case.said):
        if "drawer" in dict(case.fields) and 0 < at < len(case.said.split()):
            continue
        line = read_line(put(case.said, "Zorpid", at), Shop())
        assert values(line, (*_FREE, "measured")) == values(plain, (*_FREE, "measured")), put(case.said, "Zorpid", at)
        assert "Zorpid" in line.unused or not line.taken


@pytest.mark.parametrize("case", [case for case in CLEAR if not case.asks], ids=str)
def test_what_was_read_reads_the_same_again(case: Case) -> None:
    """What is echoed can be typed again, and means the same."""
    [one] = [taken.cutter.but(id=1) for taken in read_line(case.said, Shop()).taken]
    plain = one.but(note=None)
    again = read_line(described(plain, "in"), Shop())
    free = (*_FREE, "price", "currency", "stamped", "measured", "reground")
    assert len(again.taken) == 1, described(plain, "in")
    for key, value in plain.as_json().items():
        read = getattr(again.taken[0].cutter, key)
        assert key in free or (read == pytest.approx(value, abs=0.003) if isinstance(value, float) else
                               read == getattr(plain, key)), (described(plain, "in"), key)


SIZES = {
    6.35: ("1/4", ".25", ".250", "0.250", "quarter inch", "1/4\"", "1/4 in", "1/4 inch"),
    9.525: ("3/8", ".375", "0.375", "three eighths", "3/8\"", "375 thou", "three-eighths inch", "3/8 inch"),
    12.7: ("1/2", ".5", ".500", "0.5", "half inch", "1/2\"", "500 thou", "½", "half-inch", "point five"),
    19.05: ("3/4", ".750", "three quarter inch", "3/4 in.", "¾", "three-quarters"),
    10.0: ("10mm", "10 mm", "10.0 mm", "10 millimetre", "10 MM"),
}
KINDS = {
    "end-mill": ("end mill", "endmill", "End-Mill", "EM", "e/m", "END MILL"),
    "keyseat-cutter": ("keyseat cutter", "key seat cutter", "Woodruff cutter", "keyway cutter"),
    "reamer": ("reamer", "REAMER", "reemer"),
    "dovetail-cutter": ("dovetail", "dovetail cutter", "dove-tail cutter", "Dovetail Cutter"),
}
PARTS: dict[str, dict[object, tuple[str, ...]]] = {
    "flutes": {2: ("2 flute", "2fl", "two flutes", "2 FLT", "2-flute"), 4: ("4 flutes", "4F", "four flute", "4 flt")},
    "material": {"hss": ("HSS", "high speed steel", "hi-speed", "high-speed"), "cobalt": ("cobalt", "M42", "Co8"),
                 "carbide": ("carbide", "carb", "CARBIDE")},
    "condition": {"dull": ("dull", "blunt"), "sharp": ("sharp", "new")},
    "drawer": {"B2": ("drawer B2", "in drawer B2", "B2")},
    "shank_mm": {size: tuple(form for said in SIZES[size] for form in (f"{said} shank", f"shank {said}", f"{said} shk"))
                 for size in (9.525, 12.7)},
    "overall_length_mm": {88.9: ("3-1/2 oal", "oal 3-1/2", "3-1/2 overall", "overall length 3-1/2 in", "3-1/2\" OAL")},
}


def test_the_order_and_the_spelling_change_nothing() -> None:
    """The same cutter said in a hundred ways is the same cutter."""
    chance = Random(1402)
    for _ in range(1500):
        kind, size = chance.choice(list(KINDS)), chance.choice(list(SIZES))
        face = 3.175 if kind == "keyseat-cutter" else None
        meant: dict[str, object] = {key: chance.choice(list(PARTS[key])) for key in PARTS if chance.random() < 0.5}
        first = f"{chance.choice(SIZES[size])} {chance.choice(KINDS[kind])}"
        if face:
            wide = chance.choice(("1/8", ".125 in"))
            first = f"{chance.choice(KINDS[kind])} {chance.choice(SIZES[size])} dia {wide} wide"
        parts = [chance.choice(PARTS[key][value]) for key, value in meant.items()]
        chance.shuffle(parts)
        text = chance.choice((", ", " , ", "; ")).join((first, *parts))
        line = read_line(text, Shop())
        assert len(line.taken) == 1 and not line.asks, (text, line.why, line.asks)
        expected = Cutter(0, kind, diameter_mm=size, face_mm=face).but(**meant)
        found = line.taken[0].cutter
        for key in ("kind", "diameter_mm", "face_mm", *PARTS):
            assert getattr(found, key) == pytest.approx(getattr(expected, key)), (text, key)
