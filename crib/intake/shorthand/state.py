"""The state of a cutter as it is said: what it is made of, how sharp, what is broken of it, and what it isn't."""

from __future__ import annotations

import re

from crib.intake.shorthand.needed import likely, likely_of, may_fit, needed
from crib.intake.shorthand.slip import Slip
from crib.intake.shorthand.vocabulary import CONDITIONS, MATERIALS

_NOT = (r"(?:not|isn'?t|aint|ain'?t|wasn'?t|never|no longer|hardly|un)"
        r"(?: (?:very|too|really|at all|been|yet|that|quite))*")
_DENIES = needed(_NOT)
_WANTS = (r"(?:needs?|wants?|should be|must be|to be|could do with|could use|ready for|due for|due)(?: to be)?(?: an?)?"
          r" (?:re ?)?(?:sharpen(?:ed|ing)?|ground|grind(?:ing)?|reground|regrind(?:ing)?|honed|honing|stoned|stoning|"
          r"a touch|touch(?:ing)? up)(?: again)?")
_HURT = r"(?:chip(?:ped|s)?|nick(?:ed|s)?|ding(?:ed|s)?|crack(?:ed|s)?|broke(?:n)?|missing|gone|damaged|knocked off)"
_TOOTH = r"(?:flutes?|tooth|corners?|lips?|edges?)"
_LOSSES = (
    rf"(?P<many>\d{{1,2}}) of (?:the |its |all )?(?P<of>\d{{1,2}}) (?:flutes?|tooth)(?: (?:is|are|has|have))?(?: an?)? "
    rf"{_HURT}",
    rf"{_HURT} (?:on|in|off|at|along)(?: of)? (?P<many>\d{{1,2}})(?: of (?:the |its )?(?P<of>\d{{1,2}}))? {_TOOTH}",
    rf"(?P<many>1) {_TOOTH}(?: (?:is|has|was|with|with an?|an?))* {_HURT}",
    rf"(?:an? )?{_HURT}(?: (?:on|in|off|of))?(?: (?:the|its))? (?P<many>1)(?: of (?:the|its)(?: (?P<of>\d{{1,2}}))?)? "
    rf"{_TOOTH}",
    r"(?P<many>\d{1,2}) (?:flutes|tooth|corners) (?:is |are )?(?:missing|gone|broken(?: off)?)",
    r"(?:missing|lost|lacks|short of) (?P<many>\d{1,2}) (?:flutes?|tooth)",
)
"""Ways to say that so many teeth are hurt, which isn't how many there are."""

_EITHER = rf"{_HURT} (\d{{1,2}}) flutes|(\d{{1,2}}) flutes {_HURT}"
_LIKELY_LOSSES, _LIKELY_MATERIALS, _LIKELY_CONDITIONS = likely(_LOSSES), likely_of(MATERIALS), likely_of(CONDITIONS)
_WORST = ("burnt", "bent", "chipped", "dull", "used", "sharp", "unknown")


def losses(slip: Slip) -> None:
    """What is broken of it: the number in `chipped one flute` isn't how many it has."""
    for pattern in _LIKELY_LOSSES.among(slip.pieces):
        if found := slip.take(pattern, "condition"):
            parts = found.groupdict()
            slip.values["condition"] = "chipped"
            slip.notes.append(found[0].strip())
            if parts.get("of"):
                slip.values["flutes"] = int(parts["of"])
                slip.at["flutes"] = found.span()
            return
    if slip.find(_EITHER) and len(re.findall(r"\d+ (?:flutes?|tooth)", slip.text)) == 1:
        slip.ask("flutes", "flutes: is that how many it has, or how many are chipped? count them")


def wants(slip: Slip) -> None:
    """That it wants sharpening: it is dull, and not ground yet."""
    if found := slip.take(_WANTS, "condition"):
        slip.values.setdefault("condition", "dull")
        slip.notes.append(found[0].strip())


def denied(slip: Slip) -> None:
    """What it is said not to be stays unknown and is asked, unless the line says what it is instead, or it is that it
    was never ground."""
    if not may_fit(slip.pieces, _DENIES):
        return
    while found := slip.take(rf"{_NOT} (?:re ?ground|ground|re ?sharpened|sharpened|touched)"):
        slip.notes.append(found[0].strip())
    for key, known in (("condition", CONDITIONS), ("material", MATERIALS)):
        said = [found[0].strip() for pattern, _ in known if (found := slip.take(rf"{_NOT} (?:an? )?(?:{pattern})"))]
        slip.notes += said
        if said and key not in slip.values and not any(slip.find(pattern) for pattern, _ in known):
            slip.ask(key, f"{key}: it is said to be {said[0]}; which is it?")


def substance(slip: Slip) -> None:
    """Material and coating, condition, and whether it was reground."""
    grade = slip.take(r"(?<=carbide )c[1-8]|c[1-8](?= carbide)")
    if grade:
        slip.notes.append(f"grade {grade[0].upper()}")
    _material(slip)
    _reground(slip)
    _condition(slip)


def _material(slip: Slip) -> None:
    told: dict[str, tuple[int, str]] = {}
    for pattern, material in _LIKELY_MATERIALS.among(slip.pieces):
        while found := slip.take(pattern, "material"):
            told.setdefault(material, (found.start(), found[0]))
    if not told:
        return
    if set(told) == {"cobalt", "hss"}:
        told.pop("hss")
    first = min(told, key=lambda material: told[material])
    slip.values.setdefault("material", first)
    if len(told) > 1:
        slip.ask("material", "material: is it " + " or ".join(sorted(told, key=lambda one: told[one])) + "?")


def _condition(slip: Slip) -> None:
    said = [slip.values["condition"]] if "condition" in slip.values else []
    if found := slip.take(r"broken(?: off)?|broke|snapped(?: off)?", "condition"):
        said.append("chipped")
        slip.notes.append(found[0].strip())
        slip.ask("condition", "condition: it is said to be broken; what is left of it? if nothing, leave it out")
    for pattern, condition in _LIKELY_CONDITIONS.among(slip.pieces):
        while found := slip.take(pattern, "condition"):
            said.append(condition)
            if "corner" in found[0]:
                slip.notes.append("chipped corner")
    if not said:
        return
    worst = min(said, key=_WORST.index)
    slip.values["condition"] = "sharp" if set(said) == {"used", "sharp"} else worst
    if "sharp" in said and worst in _WORST[:4]:
        slip.ask("condition", f"condition: is it sharp, or {worst}?")
    slip.notes += [one for one in dict.fromkeys(said) if one not in (worst, "sharp", "used")]


def _reground(slip: Slip) -> None:
    under = r"(?:under|undersize|small|off)"
    if found := slip.take(rf"(?:re)?ground (?:by )?(?P<by>\.\d+|\d+ thou) {under}|(?:re)?ground {under}(?: by)? "
                          rf"(?P<less>\.\d+|\d+ thou)|(?:re)?ground(?: down)? to (?P<to>\d*\.\d+|\d+/\d+)|"
                          rf"reground", "reground"):
        slip.values["reground"] = True
        if by := found["by"] or found["less"]:
            slip.values["ground_by"] = by
        if found["to"]:
            slip.values["ground_to"] = found["to"]
