"""Records do what the standard library's dataclasses do: each check is made of both, the library's own beside ours."""

from __future__ import annotations

import copy
import dataclasses
import pickle
import re
import subprocess
import sys
import typing
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import crib
from crib.cutters.base import Cutter
from crib.geometry.region import Region
from crib.light import filling, records, tuples

Make = Callable[..., Any]


def _classes(dataclass: Make, field: Make) -> dict[str, Any]:
    """The same classes, made by either."""
    @dataclass(frozen=True)
    class Plain:
        a: int
        b: str = "usual"
        c: list[int] = field(default_factory=list)

    @dataclass(frozen=True, slots=True)
    class Slotted:
        a: int
        b: str = "usual"

        def __post_init__(self) -> None:
            object.__setattr__(self, "a", round(self.a))

    @dataclass
    class Open:
        a: int
        b: dict[str, int] = field(default_factory=dict, compare=False, repr=False)

    @dataclass(frozen=True)
    class Longer(Plain):
        d: tuple[Any, ...] = ()
        b: str = "another"

    @dataclass(frozen=True, kw_only=True)
    class Named(Plain):
        d: int
        e: int = 0

    @dataclass(frozen=True, eq=False)
    class Itself:
        a: int = 0

    @dataclass(frozen=True)
    class Empty:
        pass

    return {one.__name__: one for one in (Plain, Slotted, Open, Longer, Named, Itself, Empty)}


OURS, THEIRS = (_classes(made.dataclass, made.field) for made in (records, dataclasses))
NAMES = sorted(OURS)


def _tuples(NamedTuple: Any) -> dict[str, Any]:
    """The same named tuples, made by either."""
    class Pair(NamedTuple):
        a: int
        b: str = "usual"
        c: tuple[int, ...] = ()

        @property
        def twice(self) -> int:
            """A method of its own."""
            return 2 * self.a

    class Bare(NamedTuple):
        pass

    class Whole(NamedTuple):
        """All must be given."""

        a: int
        d: int

    return {one.__name__: one for one in (Pair, Bare, Whole)}


OUR_TUPLES, THEIR_TUPLES = (_tuples(made) for made in (tuples.NamedTuple, typing.NamedTuple))


def _outcome(do: Callable[[], Any]) -> Any:
    """What comes of it: the value, or the error's type; the message too, where Python words it."""
    try:
        return do()
    except TypeError as error:
        return str(error)
    except Exception as error:
        return type(error).__name__


@given(st.sampled_from(NAMES), st.lists(st.integers(0, 2), max_size=4),
       st.dictionaries(st.sampled_from("abcde"), st.integers(0, 2), max_size=3), st.booleans())
def test_it_is_made_and_shown_as_a_dataclass_is(name: str, values: list[int], named: dict[str, int],
                                                is_worn_in: bool) -> None:
    """By what makes a class's first records, and by what is written for it when it has made many."""
    fresh = OURS if is_worn_in else _classes(records.dataclass, records.field)
    if is_worn_in:
        for _ in range(filling.FEW + 1):
            _outcome(lambda: OURS[name](1, 2))
        assert OURS[name].__init__.__code__.co_varnames[:1] == ("self",)
    ours, theirs = (_outcome(lambda made=made: repr(made[name](*values, **named))) for made in (fresh, THEIRS))
    assert ours == theirs


@given(st.sampled_from(sorted(OUR_TUPLES)), st.lists(st.integers(0, 2), max_size=4),
       st.dictionaries(st.sampled_from("abcde"), st.integers(0, 2), max_size=3), st.booleans())
def test_a_named_tuple_is_made_and_changed_as_the_librarys_is(name: str, values: list[int], named: dict[str, int],
                                                              is_worn_in: bool) -> None:
    """While its class has made few, and when it has made many."""
    def all_of(made: Any) -> list[Any]:
        if is_worn_in:
            for _ in range(tuples.FEW + 1):
                _outcome(lambda: made(*range(len(made._fields))))
        one = _outcome(lambda: made(*values, **named))
        if isinstance(one, str):
            return [one]
        return [repr(one), tuple(one), one._asdict(), hash(one) == hash(tuple(one)), repr(copy.deepcopy(one)),
                [getattr(one, key) for key in one._fields], made._fields, dict(made._field_defaults),
                made.__match_args__, _outcome(lambda: repr(one._replace(**named))), hasattr(one, "__dict__"),
                _outcome(lambda: one.twice), _outcome(lambda: repr(made._make(values)))]

    fresh = _tuples(tuples.NamedTuple) if not is_worn_in else OUR_TUPLES
    assert all_of(fresh[name]) == all_of(THEIR_TUPLES[name])


@given(st.sampled_from(NAMES), st.tuples(st.integers(0, 1), st.integers(0, 1)), st.tuples(st.integers(0, 1)),
       st.dictionaries(st.sampled_from("abcde"), st.integers(0, 2), max_size=2))
def test_it_is_compared_hashed_and_changed_as_a_dataclass_is(name: str, one: tuple[int, ...], other: tuple[int, ...],
                                                             changes: dict[str, int]) -> None:
    def all_of(made: dict[str, Any], replace: Make) -> list[Any]:
        first, second = (_outcome(lambda values=values: made[name](*values)) for values in (one, other))
        if isinstance(first, str):
            return [first]
        return [first == second, first == one, _outcome(lambda: hash(first) == hash(second)),
                _outcome(lambda: repr(replace(first, **changes))), _outcome(lambda: first == copy.deepcopy(first))]

    ours, theirs = all_of(OURS, records.replace), all_of(THEIRS, dataclasses.replace)
    assert ours == theirs
    assert all_of(OURS, dataclasses.replace) == ours


@pytest.mark.parametrize("name", NAMES)
def test_it_changes_only_where_a_dataclass_does(name: str) -> None:
    for made in (OURS, THEIRS):
        one = made[name](*([1] if name != "Empty" else []), **({"d": 1} if name == "Named" else {}))
        if name == "Open":
            one.a = 2
            assert one.a == 2
            continue
        for change in (lambda one=one: setattr(one, "a", 2), lambda one=one: delattr(one, "a")):
            with pytest.raises(dataclasses.FrozenInstanceError):
                change()


@pytest.mark.parametrize("name", NAMES)
def test_the_librarys_own_functions_take_it_for_one(name: str) -> None:
    ours, theirs = OURS[name], THEIRS[name]
    assert dataclasses.is_dataclass(ours)
    assert ([(one.name, one.default, one.default_factory) for one in dataclasses.fields(ours)]
            == [(one.name, one.default, one.default_factory) for one in dataclasses.fields(theirs)])
    assert [one.name for one in records.fields(ours)] == [one.name for one in dataclasses.fields(theirs)]
    assert ours.__match_args__ == theirs.__match_args__


def test_records_in_records_become_dictionaries() -> None:
    for made in (OURS, THEIRS):
        inner = made["Plain"](1, c=[made["Slotted"](2)])
        outer = made["Longer"](1, c={"x": inner}, d=(inner, 3))
        for asdict in (records.asdict, dataclasses.asdict):
            if made is OURS or asdict is dataclasses.asdict:
                assert asdict(outer) == {"a": 1, "b": "another", "c": {"x": _dictionary()}, "d": (_dictionary(), 3)}


def _dictionary() -> dict[str, Any]:
    return {"a": 1, "b": "usual", "c": [{"a": 2, "b": "usual"}]}


def test_a_dataclass_of_the_library_may_grow_from_a_record() -> None:
    @dataclasses.dataclass(frozen=True)
    class Grown(OURS["Plain"]):  # type: ignore[misc, name-defined]
        more: int = 3

    assert repr(Grown(1, more=4)).endswith("Grown(a=1, b='usual', c=[], more=4)")


def test_a_record_is_kept_and_read_back() -> None:
    """In slots or not: what is found crosses from one process to another."""
    from crib.findings.message import Mm

    for one in (Mm(1.25, fine=True), Region(), Cutter(3, "end-mill", diameter_mm=12.7)):
        assert pickle.loads(pickle.dumps(one)) == one == copy.copy(one)


def test_no_part_uses_the_librarys_own() -> None:
    """One class of it costs what thirty of ours do."""
    package = Path(crib.__file__).parent
    every = [path for path in package.rglob("*.py") if path.parent.name != "light"]
    foreign = [str(path) for path in every if re.search(
        r"from dataclasses import|from typing import .*NamedTuple", path.read_text(encoding="utf-8"))]
    assert len(every) > 500
    assert not foreign, "from crib.light.records import dataclass, from crib.light.tuples import NamedTuple"


def test_making_records_is_cheap() -> None:
    """A short command makes some two hundred classes of them: neither `inspect` nor the library's own is needed."""
    code = "import crib.cutters, crib.planning.advise, sys; print({'inspect', 'dataclasses'} & {*sys.modules})"
    assert subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout == "set()\n"
