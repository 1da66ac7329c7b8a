"""How thick the stock is that something is cut in: `1/2 deep in 5/8 thick plate`, a `1/4 hole in 3/8 plate`."""

from __future__ import annotations

from crib.features.base import FeatureKind
from crib.intake.questions.sheet import Sheet
from crib.intake.questions.tokens import FIGURE
from crib.intake.questions.values import figure
from crib.intake.questions.vocabulary import labels

_UNIT = r"(?: ?(?:mm|in|inch|inches|\"))?"
_SIZE = rf"(?:{FIGURE})(?: \d+/\d+)?{_UNIT}"
_WORDS, _BLIND, _FIGURES = ("thick", "thk", "plate"), ("blind", "not through", "not thru"), "0123456789./- "
_THICK = (rf"(?<![\w/.-])(?:(?:in|into|of|from|through) )?(?:an? |the )?(?P<size>{_SIZE}) ?(?:(?:thick(?:ness)?|thk)"
          r"(?: (?:plate|stock|bar|piece|block|flat))?|plate)(?!\w)")
_DEEP = rf"(?<![\w/.-])(?:(?P<before>{_SIZE}) ?(?:deep|depth)|(?:deep|depth)(?: of| is)? (?P<size>{_SIZE}))(?![\w/])"


def stock(sheet: Sheet, kind: FeatureKind) -> None:
    """Beside a depth it says what stays below. Common practice, no source."""
    if not any(word in sheet.low for word in _WORDS) or not any(one.key == "depth" for one in kind.sizes):
        return
    label = labels(kind.name).get("thick")
    if label is not None and label.keys not in ((), ("depth",)):
        return
    deep, found = sheet.find(_DEEP), sheet.find(_THICK)
    if deep is None or found is None or "below" in sheet.texts:
        return
    thick, to = found["size"], deep["before"] or deep["size"]
    unit, left = thick.lstrip(_FIGURES), figure(thick) - figure(to)
    if _in_inches(thick) and _in_inches(to):
        unit = unit or to.lstrip(_FIGURES)
    elif unit != to.lstrip(_FIGURES):
        return
    if left > 1e-6:
        sheet.put("below", f"{left:.6g}{unit}".removeprefix("0"))
        sheet.blank(*found.span())


def _in_inches(text: str) -> bool:
    """Whether a size is surely in inches: it says so, or is a fraction or begins with its point."""
    return text.endswith(("in", "inch", "inches", '"')) or (text[-1].isdigit() and ("/" in text or text[0] == "."))


def is_thickness(sheet: Sheet, kind: FeatureKind, name: str) -> bool:
    """Whether a depth that is called so is the thickness of the stock, so that what it is of goes through: the `1/4
    hole in 3/8 plate`. Common practice, no source."""
    can_go_through = any(one.key == "through" for one in kind.options)
    return (can_go_through and any(word in name for word in _WORDS)
            and not {"through", "below"} & sheet.texts.keys()
            and not any(word in sheet.before for word in _BLIND))
