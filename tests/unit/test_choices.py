"""Named choices do what the standard library's do: each check is made of both, the library's own beside ours."""

from __future__ import annotations

import copy
import enum
import json
import pickle
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import crib
from crib.findings.verdicts import Verdict
from crib.light import choices


def _class(base: Any) -> Any:
    class Way(base):
        """Some ways."""

        ALONG = "along"
        DOWN = "down the axis"
        AGAIN = "along"
        IDLE = ""

        @property
        def other(self) -> Any:
            """A method of its own."""
            return Way.DOWN if self is Way.ALONG else self

    return Way


OURS, THEIRS = _class(choices.StrEnum), _class(enum.StrEnum)
CHECKS: list[Callable[[Any], Any]] = [
    lambda way: [str(one) for one in way],
    lambda way: [(one.name, one.value, repr(one), f"{one:>6}", type(str(one)), type(one.value)) for one in way],
    lambda way: (len(way), bool(way), way.__doc__, way.__name__, way.__qualname__),
    lambda way: (way("down the axis") is way.DOWN, way["DOWN"] is way.DOWN, way.AGAIN is way.ALONG, way.AGAIN.name),
    lambda way: way("nope"),
    lambda way: way["NOPE"],
    lambda way: way.NOPE,
    lambda way: (way.ALONG.other.name, way.DOWN.other.name),
    lambda way: (way.ALONG == "along", "along".__eq__(way.ALONG), way.ALONG != way.DOWN, way.ALONG in way),
    lambda way: (hash(way.ALONG) == hash("along"), {way.ALONG: 1}["along"], {"along", way.ALONG} == {"along"}),
    lambda way: (copy.copy(way.DOWN) is way.DOWN, copy.deepcopy([way.DOWN])[0] is way.DOWN),
    lambda way: (json.dumps({way.DOWN: way.ALONG}), "-".join(way), way.DOWN.upper(), bool(way.IDLE)),
    lambda way: (isinstance(way.DOWN, way), isinstance(way.DOWN, str), isinstance("along", way), sorted(way)),
]


def _outcome(check: Callable[[Any], Any], way: Any) -> Any:
    try:
        return check(way)
    except (ValueError, KeyError) as error:
        return repr(error)
    except AttributeError:
        return AttributeError


@pytest.mark.parametrize("check", CHECKS)
def test_it_does_what_the_librarys_does(check: Callable[[Any], Any]) -> None:
    assert repr(_outcome(check, OURS)) == repr(_outcome(check, THEIRS))


def test_a_choice_is_kept_and_read_back() -> None:
    """What is found crosses from one process to another."""
    assert pickle.loads(pickle.dumps(Verdict.CANNOT)) is Verdict.CANNOT


def test_no_part_uses_the_librarys_own() -> None:
    """One class of it costs what ten of ours do."""
    every = [path for path in Path(crib.__file__).parent.rglob("*.py") if path.parent.name != "light"]
    foreign = [str(path) for path in every if re.search(
        r"from enum import .*StrEnum", path.read_text(encoding="utf-8"))]
    assert len(every) > 500
    assert not foreign, "from crib.light.choices import StrEnum"
