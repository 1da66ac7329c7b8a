"""What somebody else changed meanwhile, told to whoever was about to change the same: what it was, what it is, and how
to say one's own again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from crib.findings.errors import CribError
from crib.light.hints import Any
from crib.store.changes import Change
from crib.units import in_words

_FOLLOWS = ("label", "known", "typed", "questions", "measured", "stamped", "assumed")
"""What goes along with other values."""


def changed(number: int, since: Sequence[Change], mine: Mapping[str, Any], units: str) -> CribError:
    """A cutter was changed meanwhile; `mine`: the values that were to be written."""
    before: dict[str, Any] = {}
    after: dict[str, Any] = {}
    for change in since:
        after |= change.after or {}
        before = (change.before or {}) | before
    parts = [f"{_name(key)} {_said(key, before.get(key), units)} -> {_said(key, after[key], units)}"
             for key in after if key not in _FOLLOWS]
    who = (since[-1].who if since else "") or "somebody"
    return CribError("changed", f"no. {number} was changed by {who} a moment ago: "
                                f"{', '.join(parts) or 'how its sizes are known'}; yours again?",
                     str(number), again(number, mine, units))


def again(number: int, mine: Mapping[str, Any], units: str) -> str:
    """The command that says one's own once more, where one command can.

    >>> again(4, {"label": "a drill", "drawer": "left box", "neck_mm": 6.35, "note": None}, "in")
    "crib amend 4 --drawer 'left box' --neck 1/4 --note unknown"
    """
    from shlex import quote

    wanted = {key: value for key, value in mine.items() if key not in _FOLLOWS}
    if not wanted or not all(isinstance(value, str | int | float | None) for value in wanted.values()):
        return f"look at it (crib show {number}), then say yours again"
    said = (f"--{_name(key).replace(' ', '-')} {quote('unknown' if value is None else _said(key, value, units))}"
            for key, value in wanted.items())
    return f"crib amend {number} {' '.join(said)}"


def _name(key: str) -> str:
    return key.removesuffix("_mm").removesuffix("_deg").replace("_", " ")


def _said(key: str, value: Any, units: str) -> str:
    if value is None:
        return "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if key.endswith("_mm") and value:
        return in_words(value, units)
    if isinstance(value, float):
        return f"{value:g}"
    return str(value) if isinstance(value, str | int) else "otherwise"
