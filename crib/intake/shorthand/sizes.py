"""Sizes without a label: which is which goes by the kind's usual order, and where two readings would do it is asked."""

from __future__ import annotations

import re
from collections.abc import Callable

from crib.cutters import KINDS
from crib.cutters.speech import Order
from crib.handbook.woodruff import old_number
from crib.intake.shorthand import down_an_axis
from crib.intake.shorthand.in_order import NEAR_MM, WHOLE, in_order
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

_LARGEST_BARE = 3.0

_MANY, _MIXED = pattern(r"^\(?(\d+) (\d+/\d+) (?:\w+ )*?\w+s$"), pattern(r"^(\d+) (\d+/\d+)$")
_BARE = pattern(r"\d+(?:\.\d+)?")
_MARK, _MARK_IN_LINE = pattern(r"\d{3,4}(?:-1/2)?"), pattern(r"(?<![\w/.-])(\d{3,4}(?:-1/2)?)(?![\w/.-])")
"""What a keyseat cutter's number looks like."""


def place_sizes(slip: Slip, kind: str) -> None:
    """Put the sizes without a label into the fields of a kind. Raises `Held` where a reading would be a guess."""
    speech = KINDS[kind].speech
    _one_or_two(slip, speech.small)
    if speech.small:
        _believable(slip, speech.order)
    if isinstance(speech.order, Order):
        _ORDERS[speech.order](slip)
    else:
        in_order(slip, speech.order)


def _one_or_two(slip: Slip, is_small: bool) -> None:
    """`2 3/8 end mills`: two of 3/8, or 2-3/8? `1, 1/4`: one size, or two?"""
    found = _MANY.match(slip.said)
    first = slip.sizes[0] if slip.sizes else ""
    mixed = _MIXED.match(first)
    large = mixed and int(mixed[1]) >= 2 and is_small
    doubtful = found if found and int(found[1]) >= 2 else mixed if large else None
    if doubtful:
        many, each = doubtful[1], doubtful[2]
        raise Held(f"it could be {many} of {each}, or one of {many}-{each}",
                   f"({many}) {each} ..., or {many}-{each} ...")
    if slip.values.pop("separated", False) and len(slip.sizes) > 1 and WHOLE.match(slip.sizes[0]):
        whole, part = slip.sizes[:2]
        if re.match(r"^\d+/\d+$", part):
            raise Held(f"{whole}, {part} could be {whole}-{part}, or two sizes", f"{whole}-{part}, or {whole} x {part}")


def _believable(slip: Slip, order: Order | tuple[str, ...]) -> None:
    """A bare number that can't be inches."""
    text = slip.typed.get("diameter_mm") or next(iter(slip.sizes), "")
    if slip.units != "in":
        return
    number = _BARE.fullmatch(text)
    if not number or (order in (Order.NUMBER, Order.MARK) and WHOLE.match(text)):
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
        in_order(slip, ("diameter_mm", "shank_mm", "length_of_cut_mm", "overall_length_mm"))
    elif len(sizes) == 3 and "shank_mm" not in slip.values:
        _three(slip)
    elif len(sizes) == 2 and "shank_mm" not in slip.values:
        first, second = slip.mm(sizes[0]), slip.mm(sizes[1])
        if first and second and _is_off(first, second):
            slip.size("diameter_mm", sizes[0])
            slip.ask("diameter_mm", f"is {sizes[1]} what it measures across? say {sizes[1]} measured")
            return
        shank = second is not None and (second == first or nm(second) in _SHANKS)
        in_order(slip, ("diameter_mm", "shank_mm" if shank else "length_of_cut_mm"))
        if not shank:
            slip.ask("length_of_cut_mm", f"is {sizes[1]} its length of cut?")
    else:
        in_order(slip, ("diameter_mm", "length_of_cut_mm", "overall_length_mm"))


def _is_off(first: float, second: float) -> bool:
    """Whether a second size is the first as a micrometer gives it: hardly less, and not the same."""
    return first != second and abs(first - second) < NEAR_MM


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
    mark = next((text for text in slip.sizes if _MARK.fullmatch(text)), None)
    found = _MARK_IN_LINE.search(slip.said) if mark is None else None
    mark = mark or (found[1] if found else None)
    if mark and (sizes := keyseat(mark)):
        if slip.sizes == [mark, "1/2"] and keyseat(f"{mark}-1/2"):
            raise Held(f"{mark} 1/2 could be the mark {mark}-1/2, or {mark} and a size",
                       f"{mark}-1/2 key cutter, or what the 1/2 is, such as its shank")
        slip.sizes = [text for text in slip.sizes if text != mark]
        is_face = len(slip.sizes) == 1 and slip.mm(slip.sizes[0]) == sizes[1]
        in_order(slip, ("face_mm", "diameter_mm") if is_face else ("diameter_mm", "face_mm"))
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
    in_order(slip, ("diameter_mm", "face_mm"))


def _may_be_the_bolt(slip: Slip) -> bool:
    """Whether a bare size beside a T-slot cutter's diameter may be the bolt's: its face is hardly ever half of its
    diameter (ASME B5.1M, from memory)."""
    across = slip.values.get("diameter_mm")
    if not KINDS[slip.values["kind"]].speech.by_bolt or across is None or len(slip.sizes) != 1:
        return False
    return "face_mm" not in slip.values and (slip.mm(slip.sizes[0]) or 0.0) >= across / 2


def _form(slip: Slip) -> None:
    if slip.sizes and "radius_mm" not in slip.values:
        text = slip.sizes[0]
        raise Held(f"is {text} the diameter of the round it makes, or its radius?", f"{text} radius, or {text} round "
                   "written as its radius")
    in_order(slip, ("diameter_mm", "face_mm", "bore_mm"))


_ORDERS: dict[Order, Callable[[Slip], None]] = {
    Order.MILL: _end_mill, Order.MARK: _keyseat, Order.DISC: _disc, Order.ROUND: _form,
    Order.NUMBER: down_an_axis.drill, Order.FIT: down_an_axis.reamer, Order.PIN: down_an_axis.taper_reamer,
    Order.PILOTED: down_an_axis.centre_drill, Order.SPAN: down_an_axis.step_drill, Order.THREAD: down_an_axis.tap,
    Order.SCREW: down_an_axis.counterbore,
}
"""How the sizes of a kind are read, by the order in which a shop says them."""
