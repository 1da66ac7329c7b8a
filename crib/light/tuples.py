"""Named tuples: `NamedTuple` of the standard library, at a small part of its price. A type checker is shown the
library's own. What isn't used in this program isn't here."""

from __future__ import annotations

import collections
from collections.abc import Iterable, Mapping

from crib.light.hints import TYPE_CHECKING, Any

FEW = 1280
"""So many of a class are made before a function of its own pays, all of whose values are given; of others a tenth."""


class _Tuple(tuple[Any, ...]):
    """What all named tuples have."""

    __slots__ = ()
    _fields: tuple[str, ...]
    _field_defaults: Mapping[str, Any]

    @classmethod
    def _make(cls, values: Iterable[Any]) -> Any:
        made = tuple.__new__(cls, values)
        if len(made) != len(cls._fields):
            raise TypeError(f"Expected {len(cls._fields)} arguments, got {len(made)}")
        return made

    def _replace(self, /, **changes: Any) -> Any:
        made = self._make(map(changes.pop, self._fields, self))
        if changes:
            raise ValueError(f"Got unexpected field names: {[*changes]!r}")
        return made

    def _asdict(self) -> dict[str, Any]:
        return dict(zip(self._fields, self, strict=True))

    def __repr__(self) -> str:
        said = ", ".join(f"{name}={value!r}" for name, value in zip(self._fields, self, strict=True))
        return f"{type(self).__name__}({said})"

    def __getnewargs__(self) -> tuple[Any, ...]:
        return tuple(self)


class _Tuples(type):
    """Makes the class of a named tuple out of what is written in its body."""

    def __new__(cls, name: str, _: tuple[type, ...], body: dict[str, Any]) -> Any:
        names = tuple(body.get("__annotations__", ()))
        usual = {one: body[one] for one in names if one in body}
        getters = {one: _getter(place, f"Field number {place}") for place, one in enumerate(names)}
        told = {"__slots__": (), "_fields": names, "_field_defaults": usual, "__match_args__": names}
        made: Any = type(name, (_Tuple,), {**body, **told, **getters})
        made.__new__ = staticmethod(_first_new(made))
        return made


_getter: Any = vars(collections)["_tuplegetter"]


def _first_new(made: Any) -> Any:
    """The `__new__` of a named tuple while it has made few; what isn't plainly right is left to one of its own."""
    names, usual, left = made._fields, made._field_defaults, FEW
    new, count, last = tuple.__new__, len(names), tuple(usual.values())
    shapes: dict[tuple[object, ...], dict[str, Any] | None] = {}

    def __new__(cls: Any, /, *values: Any, **named: Any) -> Any:
        nonlocal left
        left -= 1
        if left > 0:
            many = len(values)
            if not named:
                if many == count:
                    return new(cls, values)
                if count - len(last) <= many < count:
                    left -= 4
                    return new(cls, values + last[many - count:])
            else:
                left -= 9
                shape = (many, *named)
                if shape not in shapes:
                    shapes[shape] = _behind(names, usual, many, named)
                if (behind := shapes[shape]) is not None:
                    return new(cls, (*values, *(behind | named).values()))
        made.__new__ = staticmethod(_written_new(made))
        return made.__new__(cls, *values, **named)

    return __new__


def _behind(names: tuple[str, ...], usual: Mapping[str, Any], many: int, named: Iterable[str]) -> dict[str, Any] | None:
    """What stands behind so many values that are given in order, before those that are given by name are put in; None
    where that isn't plainly right."""
    rest, by_name = names[many:], {*named}
    if many > len(names) or not {one for one in rest if one not in usual} <= by_name <= {*rest}:
        return None
    return {one: usual.get(one) for one in rest}


def _written_new(made: Any) -> Any:
    """The `__new__` of a named tuple, as the library writes it."""
    of_library = collections.namedtuple(made.__name__, made._fields)  # type: ignore[misc]
    written: Any = of_library.__new__
    written.__defaults__ = tuple(made._field_defaults.values())
    return written


if TYPE_CHECKING:
    from typing import NamedTuple as NamedTuple
else:
    NamedTuple = type.__new__(_Tuples, "NamedTuple", (), {})

__all__ = ["NamedTuple"]
