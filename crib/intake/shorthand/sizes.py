"""Sizes without a label: which is which goes by the kind's usual order, and where two readings would do it is asked."""

from __future__ import annotations

import re
from collections.abc import Callable

from crib.cutters import KINDS
from crib.cutters.speech import Order
from crib.handbook.numbered import CENTRE_DRILLS, TAPER_PINS
from crib.handbook.woodruff import old_number
from crib.intake.shorthand.marks import keyseat
from crib.intake.shorthand.slip import Held, Slip
from crib.light.patterns import pattern
from crib.units import in_words, nm

_INCH = 25.4
_SHANKS = tuple(nm(part / 16 * _INCH) for part in (2, 3, 4, 6, 8, 10, 12, 16))
"""Usual shanks of end mills: 1/8, 3/16, 1/4, 3/8, 1/2, 5/8, 3/4, 1."""

_STANDARD = {(0.5, 1.25, 3.25), (0.5, 1.0, 3.0), (0.375, 0.75, 2.5), (0.375, 0.5625, 2.3125), (0.25, 0.625, 2.4375),
             (0.25, 0.5, 2.3125), (0.625, 1.625, 3.75), (0.75, 1.625, 3.875), (0.1875, 0.5, 2.375),
             (0.3125, 0.75, 2.5), (0.125, 0.375, 2.3125), (1.0, 2.0, 4.5), (0.4375, 1.0, 2.75)}
"""Diameter, length of cut and overall length of end mills [in] (ASME B94.19, medium and short, from memory)."""

_WORN = 0.03 * _INCH
"""What a cutter may have lost of the size that its mark stands for [mm] (common practice, no source)."""

_NEAR = 0.02 * _INCH
"""Two sizes that are nearer than this are one, as stamped and as measured."""

_WHOLE = pattern(r"^\d+$")
_LARGEST_BARE = 3.0


def place_sizes(slip: Slip, kind: str) -> None:
    """Put the sizes without a label into the fields of a kind. Raises `Held` where a reading would be a guess."""
    speech = KINDS[kind].speech
    _one_or_two(slip, speech.small)
    if speech.small:
        _believable(slip, speech.order)
    if isinstance(speech.order, Order):
        _ORDERS[speech.order](slip)
    else:
        _in_order(slip, speech.order)


def _in_order(slip: Slip, keys: tuple[str, ...]) -> None:
    free = [key for key in keys if key not in slip.values]
    if free[:2] == ["diameter_mm", "face_mm"] and len(slip.sizes) > 1:
        first, second = (slip.mm(text) or 0.0 for text in slip.sizes[:2])
        if 0 < first < second / 3:
            slip.sizes[:2] = reversed(slip.sizes[:2])
    for place, (key, text) in enumerate(zip(free, slip.sizes, strict=False)):
        slip.size(key, text)
        if place and _WHOLE.match(text) and not re.search(rf"x {text}\b|\b{text} x", slip.said):
            slip.ask(key, f"is {text} its {key.removesuffix('_mm').replace('_', ' ')}?")
    _left_over(slip, slip.sizes[len(free):])


def _left_over(slip: Slip, texts: list[str]) -> None:
    for text in texts:
        slip.ask(f"size {text}", f"what is the {text}? add its name, such as {text} shank or {text} loc")


def _one_or_two(slip: Slip, is_small: bool) -> None:
    """`2 3/8 end mills`: two of 3/8, or 2-3/8? `1, 1/4`: one size, or two?"""
    found = re.match(r"^\(?(\d+) (\d+/\d+) (?:\w+ )*?\w+s$", slip.said)
    first = slip.sizes[0] if slip.sizes else ""
    mixed = re.match(r"^(\d+) (\d+/\d+)$", first)
    large = mixed and int(mixed[1]) >= 2 and is_small
    doubtful = found if found and int(found[1]) >= 2 else mixed if large else None
    if doubtful:
        many, each = doubtful[1], doubtful[2]
        raise Held(f"it could be {many} of {each}, or one of {many}-{each}",
                   f"({many}) {each} ..., or {many}-{each} ...")
    if slip.values.pop("separated", False) and len(slip.sizes) > 1 and _WHOLE.match(slip.sizes[0]):
        whole, part = slip.sizes[:2]
        if re.match(r"^\d+/\d+$", part):
            raise Held(f"{whole}, {part} could be {whole}-{part}, or two sizes", f"{whole}-{part}, or {whole} x {part}")


def _believable(slip: Slip, order: Order | tuple[str, ...]) -> None:
    """A bare number that can't be inches."""
    text = slip.typed.get("diameter_mm") or next(iter(slip.sizes), "")
    if slip.units != "in":
        return
    number = re.fullmatch(r"\d+(?:\.\d+)?", text)
    if not number or (order in (Order.NUMBER, Order.MARK) and _WHOLE.match(text)):
        return
    if float(text) >= _LARGEST_BARE:
        raise Held(f"is {text} in mm? as inches it is too large", f"{text} mm, or {text} in")


def _end_mill(slip: Slip) -> None:
    sizes = slip.sizes
    if slip.values.get("double_ended") and len(sizes) == 2:
        slip.values["two_ends"] = list(sizes)
        slip.size("diameter_mm", sizes[0])
        slip.ask("ends", f"is one end {sizes[0]} and the other {sizes[1]}?")
    elif len(sizes) == 4:
        _in_order(slip, ("diameter_mm", "shank_mm", "length_of_cut_mm", "overall_length_mm"))
    elif len(sizes) == 3 and "shank_mm" not in slip.values:
        _three(slip)
    elif len(sizes) == 2 and "shank_mm" not in slip.values:
        first, second = slip.mm(sizes[0]), slip.mm(sizes[1])
        if first and second and _is_off(first, second):
            slip.size("diameter_mm", sizes[0])
            slip.ask("diameter_mm", f"is {sizes[1]} what it measures across? say {sizes[1]} measured")
            return
        shank = second is not None and (second == first or nm(second) in _SHANKS)
        _in_order(slip, ("diameter_mm", "shank_mm" if shank else "length_of_cut_mm"))
        if not shank:
            slip.ask("length_of_cut_mm", f"is {sizes[1]} its length of cut?")
    else:
        _in_order(slip, ("diameter_mm", "length_of_cut_mm", "overall_length_mm"))


def _is_off(first: float, second: float) -> bool:
    """Whether a second size is the first as a micrometer gives it: hardly less, and not the same."""
    return first != second and abs(first - second) < _NEAR


def _three(slip: Slip) -> None:
    """Diameter, shank and length of cut; or diameter, length of cut and overall length."""
    first, second, third = (slip.mm(text) or 0.0 for text in slip.sizes)
    standard = (round(first / _INCH, 4), round(second / _INCH, 4), round(third / _INCH, 4)) in _STANDARD
    by_shank = nm(second) in _SHANKS and second >= first - 1e-6 and third < 2 * second + _INCH and not standard
    by_length = second >= first / 2 and third >= second + 0.6 * _INCH and third >= 1.4 * _INCH
    slip.size("diameter_mm", slip.sizes[0])
    if by_shank == by_length and not standard:
        slip.ask("length_of_cut_mm",
                 f"is {slip.sizes[1]} the shank, or the length of cut with {slip.sizes[2]} overall?")
        return
    keys = ("shank_mm", "length_of_cut_mm") if by_shank else ("length_of_cut_mm", "overall_length_mm")
    for key, text in zip(keys, slip.sizes[1:], strict=True):
        slip.size(key, text)


def _keyseat(slip: Slip) -> None:
    mark = next((text for text in slip.sizes if re.fullmatch(r"\d{3,4}(?:-1/2)?", text)), None)
    found = re.search(r"(?<![\w/.-])(\d{3,4}(?:-1/2)?)(?![\w/.-])", slip.said) if mark is None else None
    mark = mark or (found[1] if found else None)
    if mark and (sizes := keyseat(mark)):
        if slip.sizes == [mark, "1/2"] and keyseat(f"{mark}-1/2"):
            raise Held(f"{mark} 1/2 could be the mark {mark}-1/2, or {mark} and a size",
                       f"{mark}-1/2 key cutter, or what the 1/2 is, such as its shank")
        slip.sizes = [text for text in slip.sizes if text != mark]
        is_face = len(slip.sizes) == 1 and slip.mm(slip.sizes[0]) == sizes[1]
        _in_order(slip, ("face_mm", "diameter_mm") if is_face else ("diameter_mm", "face_mm"))
        slip.values |= {"marking": mark, "nominal_mm": sizes[0]}
        if "face_mm" not in slip.values:
            slip.values["face_mm"] = sizes[1]
            slip.stamped.append("face_mm")
        _as_marked(slip, mark, sizes)
        return
    if _old_number(slip):
        return
    _disc(slip)


def _as_marked(slip: Slip, mark: str, sizes: tuple[float, float]) -> None:
    """What is said of the sizes is what the mark stands for, or a little less where it was measured or ground."""
    for key, name, stands_for in (("diameter_mm", "across", sizes[0]), ("face_mm", "thick", sizes[1])):
        said = slip.values.get(key)
        if said is not None and abs(said - stands_for) > _WORN:
            slip.ask(key, f"{mark} stands for {in_words(stands_for, slip.units)} {name}, but {slip.typed.get(key)} is "
                          "said: mic it")
        elif said == stands_for:
            slip.stamped.append(key)


def _old_number(slip: Slip) -> bool:
    """`#6 woodruff`: an old number, or a typing slip; asked either way."""
    found = slip.sizes and re.fullmatch(r"#?\s?(\d{1,2})", slip.sizes[0])
    now = old_number(found[1]) if found and len(slip.sizes) == 1 and "diameter_mm" not in slip.values else None
    if not found or not now:
        return False
    raise Held(f"{slip.sizes[0]} could be the old number {found[1]}, now {now}, or a size",
               f"{now} key cutter, or its diameter x face")


def _disc(slip: Slip) -> None:
    """Diameter and face; one size alone may be either."""
    if len(slip.sizes) == 1 and "diameter_mm" not in slip.values:
        text = slip.sizes[0]
        if "face_mm" in slip.values:
            slip.size("diameter_mm", text)
            return
        if "bolt" in slip.said or KINDS[slip.values["kind"]].speech.by_bolt:
            raise Held(f"{text} names the bolt of a T-slot as a rule, not the cutter's size",
                       f"mic it: T slot cutter DIAMETER x FACE, or {text} dia")
        raise Held(f"is {text} its diameter or its face?", f"{text} dia, or {text} face, with the other beside it")
    if _may_be_the_bolt(slip):
        slip.ask("face_mm", f"is {slip.sizes[0]} its face, or the bolt that it is for? mic the face")
        return
    if len(slip.sizes) == 2:
        first, second = (slip.mm(text) or 0.0 for text in slip.sizes)
        if 0 < first < second:
            raise Held(f"a disc of {slip.sizes[0]} isn't {slip.sizes[1]} thick: which is the diameter?",
                       f"{slip.sizes[1]} dia x {slip.sizes[0]} face")
    _in_order(slip, ("diameter_mm", "face_mm"))


def _may_be_the_bolt(slip: Slip) -> bool:
    """Whether a bare size beside a T-slot cutter's diameter may be the bolt's: its face is hardly ever half of its
    diameter (ASME B5.1M, from memory)."""
    across = slip.values.get("diameter_mm")
    if not KINDS[slip.values["kind"]].speech.by_bolt or across is None or len(slip.sizes) != 1:
        return False
    return "face_mm" not in slip.values and (slip.mm(slip.sizes[0]) or 0.0) >= across / 2


def _drill(slip: Slip) -> None:
    letter = re.search(r"(?:letter |[¦‖] *|^ ?)([a-z])(?= *[¦‖]| *$| )", slip.text) or re.search(
        r"\b(?:letter|size) ([a-z])\b", slip.said) or re.search(r"^([a-z]) drills?\b", slip.said)
    if gauge := re.search(r"(\d+) ?(swg|awg|gauge|ga|stubs)\b", slip.said):
        raise Held(f"{gauge[0]} is a wire's gauge: which size is that?", "mic it, or say the drill's number or letter")
    if letter and letter[1] == "a" and not re.search(r"\b(?:letter|size) a\b|\ba drills?\b|\bdrills? a\b", slip.said):
        letter = None
    if not slip.sizes and letter:
        slip.size("diameter_mm", letter[1].upper())
        slip.typed["diameter_mm"] = letter[1].upper()
        return
    if slip.sizes and _WHOLE.match(slip.sizes[0]):
        _numbered(slip)
    if slip.values.pop("range", None):
        raise Held("a range is a set: which sizes are in it?", "fractional index 1/16-1/2, or number drills 1-60")
    texts = slip.sizes
    if len(texts) == 2 and (slip.mm(texts[1]) or 0) > 4 * (slip.mm(texts[0]) or 1e9):
        _in_order(slip, ("diameter_mm", "overall_length_mm"))
    else:
        _in_order(slip, ("diameter_mm",))


def _numbered(slip: Slip) -> None:
    """`6 drill` is #6 in an inch crib; in a metric one it could be 6 mm."""
    number = int(slip.sizes[0])
    if slip.units == "mm":
        raise Held(f"is {number} the drill #{number}, or {number} mm?", f"#{number} drill, or {number} mm drill")
    if number > 80:
        raise Held(f"there is no drill #{number}; is it in mm, or the mark of a keyseat cutter?",
                   f"{number} mm drill, or {number} key cutter")
    if number:
        slip.sizes[0] = f"#{number}"


def _reamer(slip: Slip) -> None:
    sizes = slip.sizes
    if span := slip.values.pop("range", None):
        slip.size("min_hole_mm", span[0])
        slip.size("diameter_mm", span[1])
        slip.notes.append(f"adjustable from {span[0]} to {span[1]}: mic what it is set to")
        return
    first, second = ((slip.mm(text) or 0.0) for text in sizes[:2]) if len(sizes) == 2 else (0.0, 0.0)
    if second and abs(first - second) < _NEAR:
        slip.size("nominal_mm", sizes[0])
        slip.size("diameter_mm", sizes[1])
        if not slip.has("dowel|over.*|under.*"):
            slip.measured.append("diameter_mm")
        return
    letter = None if sizes else re.search(r"\b(?:letter|size) ([a-z])\b", slip.said)
    if letter:
        slip.size("diameter_mm", letter[1].upper())
    _in_order(slip, ("diameter_mm",))


def _taper_reamer(slip: Slip) -> None:
    if _is_morse(slip):
        return
    found = re.search(r"#\s?(\d{1,2})|no\.? ?(\d{1,2})", slip.said)
    end = TAPER_PINS.get(int(found[1] or found[2])) if found else None
    if found and end:
        slip.values["marking"] = f"#{found[1] or found[2]}"
        if slip.size("diameter_mm", end):
            slip.stamped.append("diameter_mm")
        slip.notes.append(f"large end of the pin {end}")
        return
    _in_order(slip, ("diameter_mm",))


_MORSE = pattern(r"\b(?:morse(?: taper)?|m ?t)\b|\bmt\d")
_MORSE_NO = pattern(r"(?:#|no\.? ?|number )\s?(\d)(?![\d/.])|\bmt ?#?(\d)|morse(?: taper)? #?(\d)(?![\d/.])|"
                    r"\b(\d) (?:mt|morse)")


def _is_morse(slip: Slip) -> bool:
    """Whether a taper reamer is said to be a Morse taper's: by its number the taper's large end, and no pin's."""
    if not _MORSE.search(slip.said):
        return False
    from crib.handbook.tapers import tapers

    found = _MORSE_NO.search(slip.said)
    number = next((part for part in found.groups() if part), "") if found else ""
    taper = next((one for one in tapers() if one.name == f"Morse {number}"), None)
    if taper is None:
        slip.ask("diameter_mm", "which Morse taper: no. 0 to 7?")
        _in_order(slip, ("diameter_mm",))
        return True
    slip.values["marking"] = f"MT{number}"
    slip.sizes.clear()
    if slip.size("diameter_mm", in_words(taper.large_mm, "in")):
        slip.stamped.append("diameter_mm")
    slip.notes.append(f"Morse taper no. {number}")
    return True


def _centre_drill(slip: Slip) -> None:
    found = re.fullmatch(r"#?\s?(\d{1,2})", slip.sizes[0]) if slip.sizes else None
    sizes = CENTRE_DRILLS.get(int(found[1])) if found else None
    if found and sizes:
        slip.values["marking"] = f"#{found[1]}"
        slip.size("diameter_mm", sizes[0])
        slip.size("tip_mm", sizes[1])
        slip.assumed += ["diameter_mm", "tip_mm"]
        return
    _in_order(slip, ("diameter_mm", "tip_mm"))


def _step_drill(slip: Slip) -> None:
    if span := slip.values.pop("range", None):
        slip.size("tip_mm", span[0])
        slip.size("diameter_mm", span[1])
        slip.notes.append("for sheet only")
        return
    _in_order(slip, ("tip_mm", "diameter_mm"))


def _tap(slip: Slip) -> None:
    said = slip.typed.get("thread", "")
    if not said and len(slip.sizes) == 1 and len(names := _pitches(slip.sizes[0])) > 1:
        raise Held(f"{slip.sizes[0]} doesn't say its pitch: is it {' or '.join(names)}?",
                   f"{names[0]} {slip.values['kind']}")
    for text in slip.sizes:
        if said.startswith(f"{text}-"):
            continue
        slip.ask(f"size {text}", f"is {text} how many there are, or a length?")


def _pitches(size: str) -> list[str]:
    """The coarse and the fine unified thread of a size."""
    from crib.handbook.threads import threads

    bare = re.sub(r"\s?(?:inch|in|\")$", "", size.removeprefix("#").strip())
    return [one.name for one in threads() if one.series in ("UNC", "UNF") and one.name.rpartition("-")[0] == bare]


def _form(slip: Slip) -> None:
    if slip.sizes and "radius_mm" not in slip.values:
        text = slip.sizes[0]
        raise Held(f"is {text} the diameter of the round it makes, or its radius?", f"{text} radius, or {text} round "
                   "written as its radius")
    _in_order(slip, ("diameter_mm", "face_mm", "bore_mm"))


def _counterbore(slip: Slip) -> None:
    if slip.has("screw|cap screw|bolt") and "for" not in slip.values:
        text = slip.sizes[0] if slip.sizes else "the size"
        raise Held(f"{text} is the screw's, not the counterbore's: its head takes a wider one",
                   "mic it: counterbore 13/32 pilot 17/64")
    _in_order(slip, ("diameter_mm", "pilot_mm"))


_ORDERS: dict[Order, Callable[[Slip], None]] = {
    Order.MILL: _end_mill, Order.MARK: _keyseat, Order.DISC: _disc, Order.NUMBER: _drill, Order.FIT: _reamer,
    Order.PIN: _taper_reamer, Order.PILOTED: _centre_drill, Order.SPAN: _step_drill, Order.THREAD: _tap,
    Order.ROUND: _form, Order.SCREW: _counterbore,
}
"""How the sizes of a kind are read, by the order in which a shop says them."""
