"""What of an answer is different, where in it, and whether that is meant."""

from __future__ import annotations

import json
import shlex
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from fnmatch import fnmatchcase
from math import isclose
from pathlib import Path
from typing import Any

from tests.answers.asking import Answer, Question

ABSENT = "(absent)"
_NEAR = 2e-9
"""Numbers are printed to nine places: the last one may be rounded either way."""


@dataclass(frozen=True)
class Difference:
    """One thing that differs: of which command line, where, and what it was and is. The path's steps are parted by
    dots; `status` is the exit status, `page.in` the printed page in inches."""

    asked: str
    path: str
    before: Any
    after: Any

    @property
    def pattern(self) -> str:
        """The path with a star for each place in a list.

        >>> Difference("make slot", "plans.0.passes.12.z_mm", 1, 2).pattern
        'plans.*.passes.*.z_mm'
        """
        return ".".join("*" if step.isdigit() else step for step in self.path.split("."))


@dataclass(frozen=True)
class Accepted:
    """A difference that is meant, and why: patterns of its path, its command line, what it was and what it is."""

    path: str
    why: str
    asked: str = "*"
    before: str = "*"
    after: str = "*"

    def covers(self, one: Difference) -> bool:
        """Whether a difference is this one."""
        return (fnmatchcase(one.path, self.path) and fnmatchcase(one.asked, self.asked)
                and fnmatchcase(shown(one.before), self.before) and fnmatchcase(shown(one.after), self.after))


def accepted(file: Path) -> tuple[Accepted, ...]:
    """What is accepted by a file; nothing where there is none."""
    if not file.exists():
        return ()
    return tuple(Accepted(**one) for one in tomllib.loads(file.read_text(encoding="utf-8")).get("accepted", ()))


def shown(value: Any) -> str:
    """A value as it is told and as patterns are held against it."""
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def line(question: Question, step: int = -1) -> str:
    """A question as a command line.

    >>> line(Question("sample", (("make", "slot", "--width", "1/2"), ("asked", "1"))))
    'make slot --width 1/2; asked 1 (of the crib sample)'
    """
    steps = question.steps if step == -1 else question.steps[:step + 1]
    return "; ".join(shlex.join(words) for words in steps) + f" (of the crib {question.crib})"


def of_answers(question: Question, before: Answer, after: Answer) -> Iterator[Difference]:
    """What differs between two answers to a question."""
    for place, (was, now) in enumerate(zip(before.steps, after.steps, strict=False)):
        asked = line(question, place)
        if was[0] != now[0]:
            yield Difference(asked, "status", was[0], now[0])
        yield from of_values(asked, "", was[1], now[1])
    if len(before.steps) != len(after.steps):
        yield Difference(line(question), "steps", len(before.steps), shown(after.steps[-1][1]))
    for units in before.pages:
        yield from _of_pages(line(question), f"page.{units}", before.pages[units], after.pages.get(units, ""))


def of_values(asked: str, path: str, was: Any, now: Any) -> Iterator[Difference]:
    """What differs between two values."""
    if isinstance(was, dict) and isinstance(now, dict):
        for key in [*was, *(key for key in now if key not in was)]:
            yield from of_values(asked, f"{path}.{key}".lstrip("."), was.get(key, ABSENT), now.get(key, ABSENT))
    elif isinstance(was, list) and isinstance(now, list):
        yield from _of_lists(asked, path, was, now)
    elif not _same(was, now):
        yield Difference(asked, path, was, now)


def _same(was: Any, now: Any) -> bool:
    numbers = all(isinstance(one, int | float) and not isinstance(one, bool) for one in (was, now))
    return isclose(was, now, rel_tol=_NEAR, abs_tol=_NEAR) if numbers else type(was) is type(now) and was == now


def _of_lists(asked: str, path: str, was: list[Any], now: list[Any]) -> Iterator[Difference]:
    """Entry by entry; where there are more or fewer of them, those that came, went or were changed."""
    if len(was) == len(now):
        for place, (one, other) in enumerate(zip(was, now, strict=True)):
            yield from of_values(asked, f"{path}.{place}", one, other)
        return
    one_by_one, others = ([json.dumps(one, sort_keys=True) for one in many] for many in (was, now))
    for kind, low, high, first, last in SequenceMatcher(None, one_by_one, others, autojunk=False).get_opcodes():
        old, new = ([], []) if kind == "equal" else (was[low:high], now[first:last])
        for place in range(max(len(old), len(new))):
            yield from of_values(asked, f"{path}.{low + place}", old[place] if place < len(old) else ABSENT,
                                 new[place] if place < len(new) else ABSENT)


def _of_pages(asked: str, path: str, was: str, now: str) -> Iterator[Difference]:
    """The lines that differ, run by run."""
    old, new = was.splitlines(), now.splitlines()
    for kind, low, high, first, last in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if kind != "equal":
            yield Difference(asked, path, "\n".join(old[low:high]) or ABSENT, "\n".join(new[first:last]) or ABSENT)


def told(found: Sequence[Difference], meant: Sequence[Accepted], most: int = 400) -> tuple[list[str], int]:
    """The differences in lines, those that nothing accepts first and each with its question, then how many there are by
    pattern; and how many aren't accepted."""
    lines: list[str] = []
    why: dict[str, int] = {}
    open_ones: list[Difference] = []
    for one in found:
        entry = next((entry for entry in meant if entry.covers(one)), None)
        if entry is None:
            open_ones.append(one)
        else:
            why[f"{entry.path}: {entry.why}"] = why.get(f"{entry.path}: {entry.why}", 0) + 1
    asked = ""
    for one in open_ones[:most]:
        lines += [one.asked] if one.asked != asked else []
        lines += [f"  {one.path}", f"    before {_short(one.before)}", f"    after  {_short(one.after)}"]
        asked = one.asked
    if len(open_ones) > most:
        lines.append(f"and {len(open_ones) - most} more")
    patterns: dict[str, list[str]] = {}
    for one in open_ones:
        patterns.setdefault(one.pattern, []).append(one.asked)
    lines += ["", *(f"{len(each):6} in {len(set(each)):4} questions  {pattern}" for pattern, each in sorted(
        patterns.items(), key=lambda item: (-len(item[1]), item[0])))]
    lines += [f"{count:6} accepted  {what}" for what, count in why.items()]
    names = [f"{entry.path}: {entry.why}" for entry in meant]
    lines += [f"     0 accepted  {name}" for name in names if name not in why]
    return lines, len(open_ones)


def _short(value: Any, most: int = 300) -> str:
    text = shown(value).replace("\n", "\n           ")
    return text if len(text) <= most else text[:most] + " ..."
