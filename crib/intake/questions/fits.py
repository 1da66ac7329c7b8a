"""The mate that a size is taken from, as it is said: `a sliding fit on a tongue that mikes .4975`."""

from __future__ import annotations

import re
from functools import cache

from crib.features.base import FeatureKind
from crib.intake.questions.sheet import KIND, Sheet
from crib.intake.questions.tokens import FIGURE
from crib.intake.questions.vocabulary import labels

_THINGS = ("dowel pin", "tongue", "tenon", "shaft", "pin", "bar", "slide", "gib", "block", "spigot", "bush", "bushing",
           "plug", "rod", "dowel", "strip", "key", "mate")
_CLASSES = r"[a-z]{1,2}\d{1,2}/[a-z]{1,2}\d{1,2}|rc[1-9]"
_CLASS = (rf"(?:{KIND}|ream(?:ed|ing)?|bored?|finish(?:ed)?|to|class|limits?|tolerance)(?: of| is)?:? "
          r"(?P<class_>(?:js|[d-h]|[knp])\d{1,2})(?![\w/.-])")
"""A class of limits that stands apart from its size: `3/8 reamed H7`."""

_OWN = r"(?:^|[,;] ?)to (?P<mate>[^;]*\d[^;]*?)(?=\s*(?:, ?(?=[a-z¦‖])|;|$))"
_SIZE = rf"(?:{FIGURE})(?: ?(?:mm|inch(?:es)?|in|\"))?(?![\w/]|\.\d)"
_SIZES = (rf"(?:about |approx(?:imately)? |~ ?)?{_SIZE}"
          rf"(?:(?:, | and | )(?:and )?{_SIZE}(?! ?(?:deep|wide|long|high|x)\b))*")
_MIKES = r"(?: (?:that |which |is |it |now )*(?:mikes|measures|measuring|miked|is|at|of)?(?: at)?)?"
_MORE = r"(?: (?:measured|miked|at (?:the|its) ends?|at its widest|least worn|or so|worn))*"
_LEAD = r"(?:to (?:fit|suit|match|go (?:on|over|round))|fits?|on|over|for|round|around|to|of)(?: to| on| over)?"


@cache
def _fit() -> str:
    """How a fit is said, by every word that there is for one; known where one is spoken of."""
    from crib.handbook.mates import WORDS

    names = "|".join(sorted(WORDS, key=len, reverse=True))
    return (rf"(?:an? )?(?P<name>{names}) fit(?:ting)?|"
            rf"fit (?P<own>{names}|{_CLASSES}|[a-z]{{1,2}}\d{{1,2}}|[a-z]+)(?=\s*(?:[,;]|$))|"
            rf"(?P<classes>{_CLASSES})(?: fit)?")


def fits(sheet: Sheet, kind: FeatureKind) -> None:
    """Read the fit and the mate, where the kind has a size that goes round another part."""
    if any(one.key == "fit" and one.limits for one in kind.standards) and (found := sheet.find(_CLASS)):
        sheet.put("fit", sheet.line[found.start("class_") : found.end("class_")])
        sheet.blank(*found.span("class_"))
    if not kind.mates:
        return
    if ("fit" in sheet.low or "rc" in sheet.low or re.search(r"\d/[a-z]", sheet.low)) and (found := sheet.find(_fit())):
        group = found.lastgroup or "name"
        sheet.put("fit", sheet.line[found.start(group) : found.end(group)])
        sheet.blank(*found.span())
    _mate(sheet, kind)


def _mate(sheet: Sheet, kind: FeatureKind) -> None:
    """What it goes round, and what that measures."""
    found = re.search(_OWN, sheet.low) if ", to " in sheet.low or sheet.low.startswith("to ") else None
    if found is None:
        known = labels(kind.name)
        things = [thing for thing in _THINGS if thing not in known or (thing == "key" and "fit" in sheet.texts)]
        if not any(thing in sheet.low for thing in things):
            return
        thing = rf"(?:(?:worn|old|new|brass|steel|iron|ground|existing|measured) )*(?:{'|'.join(things)})"
        mate = rf"(?:worn |old )*(?:{thing}{_MIKES} {_SIZES}|{_SIZES} {thing}){_MORE}"
        lead = rf"(?:{_LEAD})" if "fit" not in sheet.texts else rf"(?:{_LEAD}|[¦‖,])?"
        found = re.search(rf"(?<![\w/.-]){lead} ?(?:an? |the |my |its |our )?(?P<mate>{mate})(?![\w/])", sheet.low)
    if found is not None:
        sheet.put("to", sheet.line[found.start("mate") : found.end("mate")])
        sheet.blank(*found.span())
