"""A shank that is thinner than what it drives, as silver and deming drills have: of two sizes the smaller is the
shank's, wherever it stands. What shanks there are and how far such drills go is common practice, no source."""

from __future__ import annotations

from crib.cutters import KINDS
from crib.cutters.speech import Order
from crib.intake.shorthand.slip import Held, Slip
from crib.light.patterns import pattern
from crib.units import nm

_INCH = 25.4
_DEMING = "silver and deming"
_SHANKS = frozenset({*(nm(part / 16 * _INCH) for part in (4, 6, 8, 10, 12, 16)),
                     *(nm(mm) for mm in (6.0, 8.0, 10.0, 12.0, 13.0, 16.0, 20.0))})
_MOST_MM, _TIMES = 2 * _INCH, 4
"""Sizes over this, or so many times the other, are lengths."""

_WHOLE = pattern(r"\d+")


def shank_apart(slip: Slip, kind: str) -> None:
    """Tell the shank from the size where one is said to be thinner than the other, before the sizes of a line are taken
    in the order of their kind. Raises `Held` for a number that could be how many there are."""
    if KINDS[kind].speech.order not in (Order.NUMBER, Order.MILL, Order.FIT) or slip.values.get("range"):
        return
    if not (is_deming := _is_deming(slip)) and "reduced shank" not in slip.notes:
        return
    if is_deming:
        slip.sizes = [_not_numbered(slip, text, place) for place, text in enumerate(slip.sizes)]
    if "shank_mm" not in slip.typed:
        _two_sizes(slip)
    elif (one := _first(slip)) and (shank := slip.mm(slip.typed["shank_mm"])):
        _ask_if_no_thinner(slip, one, shank)


def _is_deming(slip: Slip) -> bool:
    """Whether it is said to be one, or another kind that is like one."""
    return _DEMING in slip.notes or (("deming" in slip.said or "&" in slip.said) and slip.has(r"deming|s ?& ?d"))


def _not_numbered(slip: Slip, text: str, place: int) -> str:
    """None of them is as small as the drills that go by numbers: `1` is an inch."""
    if not _WHOLE.fullmatch(text) or (place and text != "1"):
        return text
    if slip.units == "mm":
        return f"{text} mm"
    if text != "1":
        raise Held(f"a silver and deming drill isn't {text}: is that how many there are?",
                   f"({text}) 3/4 silver and deming drill")
    return "1 in"


def _two_sizes(slip: Slip) -> None:
    """Neither of two sizes is said to be the shank's: the smaller is. One that no shank has is asked about, and one
    beside words that may be of something else."""
    across = slip.typed.get("diameter_mm")
    texts = [across, *slip.sizes] if across else slip.sizes
    sizes = [slip.mm(text) or 0.0 for text in texts[:2] if not _WHOLE.fullmatch(text)]
    large, small = (max(sizes), min(sizes)) if len(sizes) == 2 else (0.0, 0.0)
    if not small < large <= min(_MOST_MM, _TIMES * small) or (across and sizes[0] < sizes[1]):
        is_either = len(sizes) == 2 and (small == large or (sizes[0] < sizes[1] <= _MOST_MM))
        if sizes and (other := sizes[0] if is_either else slip.values.get("shank_mm")):
            _ask_if_no_thinner(slip, texts[0], other)
        return
    at = sizes.index(small)
    slip.sizes = [text for place, text in enumerate(texts) if place != at][bool(across):]
    slip.said_now("shank_mm")
    slip.size("shank_mm", texts[at])
    if nm(small) not in _SHANKS or not (slip.has("shank") or _is_deming(slip)):
        slip.ask("shank_mm", f"is {texts[at].strip()} its shank?")


def _first(slip: Slip) -> str | None:
    return slip.typed.get("diameter_mm") or next(iter(slip.sizes), None)


def _ask_if_no_thinner(slip: Slip, text: str, shank: float) -> None:
    size = slip.mm(text)
    if size is not None and size <= shank + 1e-6:
        slip.ask("diameter_mm", f"is {text.strip()} its size, or its shank's? a reduced shank is thinner than the size")
