"""What this program gives no way for: parts whose failure hurts people, and that a standard and a competent person
answer for. When in doubt it refers; a word that is denied ("no lifting") still refers."""

from __future__ import annotations

import re
from functools import cache

TEXT = "the governing standard and a competent person decide; this sheet gives no way"

_INNOCENT = (
    r"\bclimb(?:ing)?[\s-]+(?:mill\w*|cut\w*|pass\w*|side|wall)\b|\b(?:press|bending|finger|box|sheet[\s-]*metal)[\s-]+"
    r"brakes?\b|\bgun[\s-]?metal\b|\b(?:heat|glue)[\s-]+guns?\b|\bmachinist'?s?[\s-]+jacks?\b|\bsplash[\s-]*guards?\b"
    r"|\bgear[\s-]+trains?\b|\bbus[\s-]*bars?\b|\bgaskets?\b"
    r"|\b(?:lift|lifts|lifted)[\s-]+(?:out|off)\s+(?:the\s+)?(?:cutter|tool)\b")

_TOPICS: tuple[tuple[str, str], ...] = (
    ("pressure parts, steam, hydraulics and gas",
     r"pressur\w*|steam\w*|hydraul\w*|pneumat\w*|boilers?|gas|gases|gasses|lpg|propane|acetylene|oxygen|compressed[\s-]+air"
     r"|air[\s-]+(?:receivers?|tanks?|cylinders?|reservoirs?)|accumulators?|safety[\s-]+valves?|relief[\s-]+valves?"
     r"|autoclaves?|scuba|diving|fuel[\s-]+(?:lines?|pumps?|rails?|tanks?|fittings?)|fire[\s-]+extinguishers?"),
    ("lifting gear",
     r"lift\w*|uplift\w*|hoist\w*|cranes?|eye[\s-]*(?:bolts?|nuts?)|ring[\s-]*bolts?|shackles?|slings?|rigging|winch\w*"
     r"|chain[\s-]*(?:blocks?|falls?)|block[\s-]+and[\s-]+tackle|(?:pad|lug)[\s-]*eyes?|pad[\s-]*eyes?|load[\s-]+hooks?"
     r"|suspended[\s-]+loads?|overhead[\s-]+loads?|jack|jacks|jack[\s-]*stands?|jacking|elevators?|forklifts?"
     r"|gantr(?:y|ies)"),
    ("brakes, steering, suspension and what carries people on the road",
     r"brak(?:e|es|ed|ing)|steer\w*|suspension\w*|vehic\w*|automotive|automobiles?|cars?|trucks?|lorr(?:y|ies)|bus|buses"
     r"|motor[\s-]*(?:cycles?|bikes?)|bicycles?|bikes?|trailers?|tow|tow[\s-]*(?:bars?|hooks?|balls?)|towing|hitch\w*"
     r"|wheel[\s-]+(?:hubs?|studs?|nuts?|spacers?)|stub[\s-]+axles?|control[\s-]+arms?|ball[\s-]+joints?|tie[\s-]+rods?"
     r"|seat[\s-]*belts?|roll[\s-]*(?:cages?|bars?)|locomotives?|railways?|trains?|passengers?"),
    ("aircraft", r"air[\s-]*craft\w*|airplanes?|aeroplanes?|helicopters?|aviation|aerospace|airframes?|gliders?"
                 r"|propellers?|flight\w*|airworth\w*|rotor[\s-]+hubs?"),
    ("what people climb or hang on",
     r"ladders?|scaffold\w*|climb\w*|belay\w*|carabiners?|karabiners?|harness\w*|fall[\s-]+arrest\w*|zip[\s-]*lines?"
     r"|playgrounds?|swing[\s-]*sets?|(?:child\w*|garden|porch|tree|tyre|tire|rope)(?:'?s)?[\s-]+swings?"
     r"|swing[\s-]+(?:seats?|hangers?|chains?)|hammocks?|see[\s-]*saws?|trapezes?|amusement[\s-]+rides?|fairground\w*|man[\s-]*riding"),
    ("medical parts", r"medic\w*|surg\w*|implant\w*|dental|dentist\w*|prosthe\w*|prosthes\w*|orthop\w*"
                      r"|wheel[\s-]*chairs?|patients?|ventilators?|hospitals?|life[\s-]+support"),
    ("firearm pressure parts",
     r"fire[\s-]*arms?|guns?|rifles?|pistols?|shotguns?|revolvers?|breech\w*|bolt[\s-]+(?:faces?|carriers?)|muzzle\w*"
     r"|suppressors?|silencers?|ammunition|ammo|(?:upper|lower|rifle)[\s-]+receivers?|cannons?|explosives?"),
    ("earth studs and electrical safety",
     r"earth(?:ing)?[\s-]+(?:studs?|bolts?|lugs?|terminals?|bonds?|connections?|points?|screws?)|earthing|grounding"
     r"|ground[\s-]+(?:studs?|lugs?|terminals?|straps?)|protective[\s-]+earths?|earths?|electrical[\s-]+safety|mains"
     r"|high[\s-]+voltage"),
    ("grinding wheels and guards",
     r"grind(?:ing|er)[\s-]+(?:wheels?|flanges?|spindles?|arbors?)|abrasive[\s-]+wheels?|wheel[\s-]+(?:flanges?|guards?)"
     r"|guard|guards|guarding"),
    ("what lives depend on", r"safety[\s-]+critical|life[\s-]+safety|nuclear"),
)

_MISSPELT = {
    "pressure": 0, "hydraulic": 0, "boiler": 0, "lifting": 1, "hoisting": 1, "steering": 2, "suspension": 2,
    "vehicle": 2, "aircraft": 3, "ladder": 4, "scaffold": 4, "climbing": 4, "medical": 5, "surgical": 5,
    "firearm": 6, "grounding": 7,
}
_ALIKE = 0.87
_HARMLESS = frozenset({"medial", "listing", "latter", "ladle", "founding", "rounding", "sounding", "broiler"})


def refer(use: str | None, *words: str | None) -> str | None:
    """Why no plan is given for a part of this use, or None where a plan may be given.

    `words` is whatever else was said about the part: its name, what it mates with, a note. Forms of a word count
    (lift, lifting, lifting eye), near misspellings too, and case doesn't matter.

    Parameters: use, words [-]. Returns: the text to show, or None. References: common practice, no source.

    >>> refer("lifting eye")
    'lifting gear: the governing standard and a competent person decide; this sheet gives no way'
    >>> refer("cover"), refer("slide", "side-lay of a hand proof press"), refer("load"), refer(None)
    (None, None, None, None)
    """
    said = " ; ".join(each for each in (use, *words) if each).replace("_", " ")
    if not said:
        return None
    said = re.sub(_INNOCENT, " ", said, flags=re.IGNORECASE)
    for topic, pattern in _patterns():
        if pattern.search(said):
            return f"{topic}: {TEXT}"
    topic_no = _misspelt(said)
    return None if topic_no is None else f"{_TOPICS[topic_no][0]}: {TEXT}"


@cache
def _patterns() -> tuple[tuple[str, re.Pattern[str]], ...]:
    """The topics with their patterns, compiled when something is first said."""
    return tuple((topic, re.compile(rf"\b(?:{words})\b", re.IGNORECASE)) for topic, words in _TOPICS)


def _misspelt(said: str) -> int | None:
    """The topic of a word that is nearly one of those that refer."""
    words = [word for word in re.findall(r"[a-z]{6,}", said.lower()) if word not in _HARMLESS]
    if not words:
        return None
    from difflib import get_close_matches

    for word in words:
        if near := get_close_matches(word, _MISSPELT, n=1, cutoff=_ALIKE):
            return _MISSPELT[near[0]]
    return None
