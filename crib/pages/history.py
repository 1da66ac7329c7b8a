"""What was done to the crib, in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from crib.findings.message import Fact, Text, joined, said
from crib.light.hints import Any
from crib.pages.blocks import Fit, Table, table
from crib.pages.words import name_of, value_of

_DEEDS = {
    "take-in": "taken in", "take-back": "taken back", "amend": "amended", "seen": "seen in its place",
    "shop": "set", "hold-back": "held back", "put-right": "put right",
    "let-go": "taken off the list", "reword": "reworded",
    "note": "written down", "cross-out": "crossed out", "tick": "ticked", "part": "written",
    "made": "ticked off",
}
_SUBJECTS = {"cutter": "no.", "held-back": "line", "made": "part"}
_LISTS = ("measured", "stamped", "assumed")
_ASIDE = ("label", "questions", "typed", "known")
"""What follows from the rest, or is told beside it."""


_COLUMNS = ("no", "when", "who", "what", "change")


def history(changes: Iterable[Mapping[str, Any]], undone: Mapping[int, int], headed: bool = False) -> Table:
    """A row for each change: its number, when, who, what was done to what, and what it changed. `undone`: which change
    undid which."""
    rows = ((str(one["id"]), str(one["at"])[:16].replace("T", " "), str(one["who"]), deed(one, undone),
             change_in_words(one)) for one in changes)
    return table(_COLUMNS if headed else ("",) * len(_COLUMNS), rows, Fit.ALL)


def subject_in_words(subject: str) -> str:
    """What a change was done to.

    >>> subject_in_words("cutter 4"), subject_in_words("held-back 3"), subject_in_words("shop")
    ('no. 4', 'line 3', 'shop')
    """
    what, _, number = subject.partition(" ")
    return f"{_SUBJECTS.get(what, what)} {number}".strip()


def change_in_words(change: Mapping[str, Any]) -> Text:
    """What a change changed: each value as it was and as it is, with how it was and is known where that is noted."""
    before, after = change["before"] or {}, change["after"] or {}
    if change["what"] in ("take-in", "take-back"):
        cutter = after or before
        source = cutter.get("from")
        return " ".join(part for part in (str(cutter.get("label", "")), f"as a {source}" if source == "gift" else
                                          f"({source})" if source else "") if part)
    if change["subject"].startswith("note "):
        return _noted(after or before)
    if change["what"] in ("hold-back", "let-go", "put-right"):
        became = ", ".join(f"no. {number}" for number in after.get("cutters", ()))
        arrow = {"put-right": f" -> {became}"}.get(change["what"], f" (no longer {became})") if became else ""
        return str(before.get("text", after.get("text", ""))) + arrow
    if change["what"] == "tick":
        return ", ".join(box if is_done else f"{box} no longer" for box, is_done in after.get("boxes", {}).items())
    if change["what"] == "made":
        return _done(before, after)
    if change["what"] == "part":
        return _part_lines(before.get("text", ""), after.get("text", ""))
    if change["what"] == "reword":
        return _reworded(before, after)
    hows = before.get("known") or {}, after.get("known") or {}
    told = [key for key in after if key not in _ASIDE and not (key in _LISTS and (hows[0] or hows[1]))]
    parts = [said("{name} {was} -> {now}", name=name_of(key), was=_told(key, before, hows[0]),
                  now=_told(key, after, hows[1])) for key in told]
    return joined("; ", [*parts, *(
        f"{name_of(key)} {hows[0].get(key) or 'not known'} -> {hows[1].get(key) or 'not known'}"
        for key in hows[1] if key not in told)])


def _noted(note: Mapping[str, Any]) -> str:
    """What a note says of what, so that `20` alone doesn't stand there."""
    about, words = note.get("about") or {}, str(note.get("words", ""))
    if "real" in about:
        return f"question {about.get('question')} took {about.get('real', 0):.0f} min, reckoned " \
               f"{about.get('reckoned', 0):.0f}"
    if "hole_nm" in about:
        return f"a hole of {words}"
    if "price" in about:
        shipping = f" + {about['shipping']:.2f}" if about.get("shipping") else ""
        return f"{words} at {about.get('price', 0):.2f}{shipping}"
    return f"{about['friend']} would lend {words}" if about.get("friend") else words


def _reworded(before: Mapping[str, Any], after: Mapping[str, Any]) -> str:
    """Other words for a line, or what was said of it in vain."""
    if after.get("text", before.get("text")) != before.get("text"):
        return f"{before.get('text')} -> {after.get('text')}"
    beside = after.get("beside") or {}
    said = [f"{name_of(key)} {text}" for key, text in (beside.get("said") or {}).items()]
    return "tried: " + ", ".join([*(beside.get("words") or ()), *said])


def _done(before: Mapping[str, Any], after: Mapping[str, Any]) -> str:
    """What of a part was done, what no longer is, and what was measured."""
    told = [str(one["work"]) if one else f"{(before.get('done') or {})[key]['work']} no longer"
            for key, one in (after.get("done") or {}).items()]
    told += [f"{key} measured {one['text']}" if one else f"{key} no longer measured"
             for key, one in (after.get("measured") or {}).items()]
    return ", ".join(told)


def _part_lines(before: str, after: str) -> str:
    """How many lines of a part's text came and went, and the first of them."""
    was, now = before.split("\n"), after.split("\n")
    gone, come = ([line.strip() for line in side if line.strip() and line not in other]
                  for side, other in ((was, now), (now, was)))
    told = ([f"-{len(gone)}: {gone[0]}"] if gone else []) + ([f"+{len(come)}: {come[0]}"] if come else [])
    return "taken off" if not after else "; ".join(told)


def _told(key: str, side: Mapping[str, Any], hows: Mapping[str, str | None]) -> Fact:
    how = hows.get(key)
    return said("{value}{how}", value=value_of(key, side.get(key)), how=f" ({how})" if how else "")


def deed(change: Mapping[str, Any], undone: Mapping[int, int]) -> str:
    """What was done to what, and which change it undid or was undone by."""
    marks = [f"undoes {change['undoes']}"] if change["undoes"] else []
    marks += [f"undone by {undone[change['id']]}"] if change["id"] in undone else []
    deed = f"{subject_in_words(change['subject'])} {_DEEDS.get(change['what'].partition(' ')[0], change['what'])}"
    return ", ".join([deed, *marks])
