"""Questions that were asked before: in a line each, and what their answers have become."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from crib.findings.verdicts import ANSWERS, SHORT, Verdict
from crib.light.hints import Any
from crib.pages.blocks import Fit, Table, table

_SAME_MINUTES, _SAME_MONEY = 0.05, 0.005
"""What two answers may differ by and still be shown alike."""


def questions(those: Iterable[Mapping[str, Any]]) -> Table:
    """The questions that are remembered, a row each."""
    return table(("no", "asked last", "times", "answer then", "minutes", "cost", "question"), map(_row, those), Fit.ALL)


def _row(one: Mapping[str, Any]) -> tuple[str, ...]:
    minutes, cost = one["minutes"], one["cost"]
    return (str(one["id"]), str(one["at"])[:16].replace("T", " "), str(one["times"]), _verdict(one),
            "" if minutes is None else f"{minutes:.0f}", "" if cost is None else f"{cost:.2f} {one['currency']}",
            in_a_line(one))


def in_a_line(one: Mapping[str, Any]) -> str:
    """What was asked, as it was typed; a bare size in millimetres says so.

    >>> in_a_line({"kind": "slot", "units": "in", "texts": {"width": "1/2", "head_width": ".975", "ends": "open"}})
    'slot, width 1/2, head width .975, ends open'
    """
    said = [f"{key.replace('_', ' ')} {text}" for key, text in one["texts"].items()]
    bare = any(re.fullmatch(r"\d*\.?\d+", text) for text in one["texts"].values())
    return ", ".join([one["kind"], *said]) + (" (mm)" if bare and one["units"] == "mm" else "")


def what_changed(then: Mapping[str, Any], now: Mapping[str, Any]) -> list[str]:
    """What an answer was when it was given last, and what has become of it, in lines."""
    times = "once" if then["times"] == 1 else f"{then['times']} times"
    lines = [f"asked {times}, last {str(then['at'])[:16].replace('T', ' ')}: {in_a_line(then)}"]
    if then["answer"] != now["answer"]:
        lines.append(f'the answer was "{_verdict(then)}"; now it is "{_verdict(now)}"')
    if then["cutters"] and now["cutters"] and then["cutters"] != now["cutters"]:
        lines.append(f"it was done with {_numbers(then)}; now it is done with {_numbers(now)}")
    for key, same, unit in (("minutes", _SAME_MINUTES, "min"), ("cost", _SAME_MONEY, now["currency"])):
        was, is_ = then[key], now[key]
        if was is not None and is_ is not None and abs(was - is_) >= same:
            lines.append(f"{key}: {was:.2f} then, {is_:.2f} {unit} now")
    return [*lines, "nothing has changed"] if len(lines) == 1 else lines


def _verdict(one: Mapping[str, Any]) -> str:
    answer = str(one["answer"])
    return SHORT[Verdict(answer)] if answer in ANSWERS else answer


def _numbers(one: Mapping[str, Any]) -> str:
    return " and ".join(f"no. {number}" for number in one["cutters"])
