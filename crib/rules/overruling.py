"""Which rules an owner's word may overrule, and what comes of it: it is told, and no more.

A craft rule is what is usual; whoever stands at the machine may know better of this saw and that vise. What geometry
decides, what is measured and what keeps people from harm no word changes.
"""

from __future__ import annotations

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.findings.finding import Finding, Grade
from crib.findings.message import said
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.overruled import OF_ONE, SPEED, Overrule, overrule, said_of
from crib.rules.catalogue import BY_ID, GEOMETRY

OWNERS = ("MT1", "MT3", "MT4", "MT5", "SP1", "FD1", "UN1", "G14", "RE4", "SZ2", "SU1", "JN1", "BU1", "PK1",
          "CL2", "CL3", "FC2", "CH1", "CH2", "CH3", "DT1", "DT2", "DT3", "DT4", "DT5", "SW2", "SW3", "WL1",
          "WL2", "HO1", "RE3", "HO2", "HO3", "HO4", "HO5", "HO6", "HO7", "CB1", "BC1", "BC2", "GB1", "GB2", "GB3",
          "GB4", "GB5", "GB6")
"""The rules that are the owner's to overrule: craft and speeds."""

_REFERRED = "cautions and referral"
_HARM = ("ST1", "HD1", "HD2", "WA1", "WA2", "WA3", "TH2", "TB1")
_FACTS = {
    "CD1": "what its edges are is on record: crib now NUMBER sharp", "G10": "its hand is on record: crib amend NUMBER",
    "PR1": "a measurement settles it: crib amend NUMBER --measured", "G7": "a measurement settles it",
    "TP1": "a tap that is there settles it: take it in", "KD1": "its kind is on record: crib amend NUMBER --kind",
    "G12": "what came out settles it: crib result", "TH1": "say the class instead: --class none",
    "CL1": "slack is a setting: crib shop --backlash", "RO1": "the readout is a setting: crib shop --dro",
    "RO2": "the readout is a setting: crib shop --dro",
}


def checked(text: str) -> str:
    """A text as it is kept, its rule first. Raises `CribError` for a rule that there isn't, one that is no owner's to
    overrule, no words, and a speed of which it isn't said what is run at it."""
    one = overrule(" ".join(text.split()))
    if not one.rule:
        raise CribError("overrule", "it isn't said which rule doesn't hold", text,
                        "its id and your words: 'SW3 my saw does that well'; --why and --json show the ids")
    if one.rule not in BY_ID:
        raise CribError("overrule", f"there is no rule {one.rule!r}", text, _near(one.rule))
    if one.rule not in OWNERS:
        raise CribError("overrule", f"{one.rule} stands: {BY_ID[one.rule].check}. {_why_not(one.rule)}", text,
                        "without it")
    if not one.words:
        raise CribError("overrule", f"it isn't said why {one.rule} doesn't hold", text, f"'{one.rule} and your words'")
    return f"{one.rule} {one.words}"


def checked_of_many(text: str) -> str:
    """The same where it isn't said of one cutter: how fast what is run must be said. Raises `CribError`."""
    one = overrule(checked(text))
    if one.rpm and not one.kinds:
        raise CribError("overrule", f"it isn't said what runs at {one.rpm}", text,
                        f"'the saw runs at {one.rpm}'; for one cutter: crib amend 12 --overruled '...'")
    return f"{one.rule} {one.words}"


def is_any(draft: Draft) -> bool:
    """Whether anything is overruled where a draft works, which is seldom."""
    shop = draft.question.shop
    return bool(shop.this_time or shop.overruled) or any(tool.owned.overruled for tool in draft.tools)


def _near(rule: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(rule, BY_ID, 3, 0.3)
    meant = "did you mean " + " or ".join(f"{one} ({BY_ID[one].check})" for one in near) + "? " if near else ""
    return f"{meant}--why and --json show the ids"


def _why_not(rule: str) -> str:
    if rule in _HARM or BY_ID[rule].subject == _REFERRED:
        return "It keeps people, work or machine from harm, and that is no matter of taste"
    if rule in _FACTS:
        return f"It is a fact and no opinion; {_FACTS[rule]}"
    by = "geometry" if BY_ID[rule].source == GEOMETRY else "what the cutter is and can"
    return f"It goes by {by}, and no word changes that"


def softened(draft: Draft, found: Finding) -> Finding:
    """A finding as it is told where the owner overrules it: a note, with his words."""
    one = None if _is_of_holding(draft, found) else _word(draft, found)
    if one is None:
        return found
    says = said("by your word for {by}, \"{word}\": {says}", by=one.by, word=one.words, says=found.says)
    return replace(found, grade=Grade.NOTE, says=says, overruled=(one.rule, one.words, one.by))


def _is_of_holding(draft: Draft, found: Finding) -> bool:
    """Whether it is what holds a cutter that doesn't bear it, such as a boring head its speed: that no word changes."""
    return any(tool.id == found.cutter_id and tool.held.rule == found.id and not tool.held.ok for tool in draft.tools)


def _word(draft: Draft, found: Finding) -> Overrule | None:
    """Whose word overrules a finding: that of the cutter which it is about, or of the only one that works where it is
    about none; the question's; the shop's."""
    about = {tool.id: tool.owned for tool in draft.tools if found.cutter_id in (None, tool.id)}
    alone = next(iter(about.values())) if len(about) == 1 else None
    every = said_of(draft.question.shop, alone)
    return next((one for one in every if _speaks_of(one, found) and _is_of(one, found, alone)), None)


def _speaks_of(one: Overrule, found: Finding) -> bool:
    """Whether a word is of a rule: it names it, or says how fast where the rule is the one on speed."""
    return found.id == one.rule or (found.id == SPEED and one.rpm is not None)


def _is_of(one: Overrule, found: Finding, cutter: Cutter | None) -> bool:
    """Whether a word is of this cutter: how fast one kind is run says nothing of another."""
    is_fast = found.id == SPEED and one.rpm is not None
    return not is_fast or one.by == OF_ONE or (cutter is not None and cutter.kind in one.kinds)
