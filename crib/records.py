"""Records: `dataclass`, `field`, `fields`, `replace` and `asdict` of the standard library, at a twentieth of the price.

A short command makes some two hundred classes of records and uses half of them. The library writes and compiles six
functions for each, .3 ms, and brings in `inspect`: that was half of what a short command took. Here what is the same
for all classes is written once, and a class gets its `__init__` when somebody first asks for it. A type checker is
shown the library's own, and to the library's functions a record is a dataclass. What isn't used in this program isn't
here: no order, and of `field` only what makes a value.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from operator import attrgetter
from typing import TYPE_CHECKING, Any, NoReturn

MISSING: Any = object()
"""The default of a field that must be given."""

_put = object.__setattr__


class _Field:
    """A field: its name, what it is where nothing is given, or what makes that, and what it counts for."""

    __slots__ = ("by_name", "compare", "default", "default_factory", "name", "repr")

    def __init__(self, name: str, default: Any, default_factory: Callable[[], Any] | None = None, compare: bool = True,
                 repr: bool = True) -> None:
        self.name, self.default, self.default_factory, self.compare, self.repr = (
            name, default, default_factory, compare, repr)
        self.by_name = False


def _field(*, default_factory: Callable[[], Any], compare: bool = True, repr: bool = True) -> Any:
    """`dataclasses.field`."""
    return _Field("", MISSING, default_factory, compare, repr)


def _fields(record: Any) -> tuple[_Field, ...]:
    """`dataclasses.fields`: of a class or of a record."""
    return tuple(record._fields_of_record.values())


def _replace(record: Any, /, **changes: Any) -> Any:
    """`dataclasses.replace`, of the library's dataclasses too."""
    return type(record)(**({name: getattr(record, name) for name in _names(record)} | changes))


def _names(record: Any) -> Iterable[str]:
    """The names of the fields of a record, or of one of the library's."""
    names: Iterable[str] = getattr(record, "_fields_of_record", record.__match_args__)
    return names


def _asdict(record: Any) -> dict[str, Any]:
    """`dataclasses.asdict`: records in it, and in what it holds, are dictionaries too."""
    return {name: _open(getattr(record, name)) for name in _names(record)}


def _open(value: Any) -> Any:
    if hasattr(value, "_fields_of_record"):
        return _asdict(value)
    if isinstance(value, dict):
        return {key: _open(inner) for key, inner in value.items()}
    return type(value)(map(_open, value)) if isinstance(value, list | tuple) else value


def _dataclass(cls: Any = None, /, *, frozen: bool = False, eq: bool = True, slots: bool = False,
               kw_only: bool = False) -> Any:
    """`dataclasses.dataclass`, with or without settings."""
    if cls is None:
        return lambda cls: _dataclass(cls, frozen=frozen, eq=eq, slots=slots, kw_only=kw_only)
    own = {name: _named(name, getattr(cls, name, MISSING)) for name in vars(cls).get("__annotations__", ())}
    for one in own.values():
        one.by_name = kw_only
    if slots:
        cls = _slotted(cls, own)
    for name in [name for name in own if isinstance(vars(cls).get(name), _Field)]:
        delattr(cls, name)
    known: dict[str, _Field] = getattr(cls, "_fields_of_record", {}) | own
    given: dict[str, Any] = {"_fields_of_record": known, "__repr__": _repr,
                             "__match_args__": tuple(name for name, one in known.items() if not one.by_name)}
    given |= (_equal(known, frozen) if eq else {}) | (_FROZEN if frozen else {})
    for name in [name for name in given if vars(cls).get(name) is None]:
        setattr(cls, name, given[name])
    for name, made in (("__init__", _write), ("__dataclass_fields__", _shown), ("__dataclass_params__", _shown)):
        setattr(cls, name, _WhenAsked(name, made, cls, frozen))
    return cls


def _named(name: str, default: Any) -> _Field:
    """A field as it is written in its class, with its name."""
    if not isinstance(default, _Field):
        return _Field(name, default)
    default.name = name
    return default


def _slotted(cls: Any, own: dict[str, _Field]) -> Any:
    """The class anew, its fields in slots and not in a dictionary."""
    left_out = {*own, "__dict__", "__weakref__"}
    body = {name: what for name, what in vars(cls).items() if name not in left_out}
    body |= {"__slots__": tuple(own), "__qualname__": cls.__qualname__, "__getstate__": _state, "__setstate__": _set}
    return type(cls)(cls.__name__, cls.__bases__, body)


def _equal(known: dict[str, _Field], frozen: bool) -> dict[str, Any]:
    """Records of a class are equal where all fields that count are; hashed by them where they can't change."""
    names = [name for name, one in known.items() if one.compare]
    key: Callable[[Any], Any] = attrgetter(*names) if names else lambda record: ()

    def __eq__(record: Any, other: object) -> Any:
        return key(record) == key(other) if other.__class__ is record.__class__ else NotImplemented

    def __hash__(record: Any) -> int:
        return hash(key(record))

    return {"__eq__": __eq__, "__hash__": __hash__ if frozen else None}


def _repr(record: Any) -> str:
    shown = [name for name, one in record._fields_of_record.items() if one.repr]
    said = ", ".join(f"{name}={getattr(record, name)!r}" for name in shown)
    return f"{type(record).__qualname__}({said})"


def _refuse(record: Any, name: str, value: object = None) -> NoReturn:
    from dataclasses import FrozenInstanceError

    raise FrozenInstanceError(f"{type(record).__qualname__} is frozen: its {name} can't change")


_FROZEN: dict[str, Any] = {"__setattr__": _refuse, "__delattr__": _refuse}


def _state(record: Any) -> dict[str, Any]:
    """What is kept of a record in slots when it is copied."""
    return {name: getattr(record, name) for name in _names(record)}


def _set(record: Any, state: dict[str, Any]) -> None:
    for name, value in state.items():
        _put(record, name, value)


class _WhenAsked:
    """Something of a class that is made when somebody first asks for it."""

    def __init__(self, name: str, make: Callable[[str, type[Any], bool], Any], cls: type[Any], frozen: bool) -> None:
        self.made_of = name, make, cls, frozen

    def __get__(self, record: object, _: type[Any]) -> Any:
        name, make, cls, frozen = self.made_of
        setattr(cls, name, make(name, cls, frozen))
        return getattr(cls if record is None else record, name)


def _write(_: str, cls: type[Any], frozen: bool) -> Any:
    """The `__init__` of a class, as one would write it by hand."""
    told: dict[str, Any] = {"_put": _put, "_missing": MISSING}
    takes, does = ["self"], []
    for name, one in sorted(cls._fields_of_record.items(), key=lambda named: named[1].by_name):
        value = name
        if one.by_name and "*" not in takes:
            takes.append("*")
        if one.default_factory is not None:
            told[f"_make_{name}"] = one.default_factory
            takes.append(f"{name}=_missing")
            value = f"_make_{name}() if {name} is _missing else {name}"
        elif one.default is not MISSING:
            told[f"_default_{name}"] = one.default
            takes.append(f"{name}=_default_{name}")
        else:
            takes.append(name)
        if "__slots__" in vars(cls):
            told[f"_put_{name}"] = vars(cls)[name].__set__
            does.append(f"_put_{name}(self, {value})")
        else:
            does.append(f"_put(self, {name!r}, {value})" if frozen else f"self.{name} = {value}")
    if hasattr(cls, "__post_init__"):
        does.append("self.__post_init__()")
    exec(f"def __init__({', '.join(takes)}):\n " + "\n ".join(does or ["pass"]), told)
    told["__init__"].__qualname__ = f"{cls.__qualname__}.__init__"
    return told["__init__"]


def _shown(name: str, cls: type[Any], frozen: bool) -> Any:
    """What makes a dataclass of a record in the eyes of the library's functions."""
    import dataclasses

    body: dict[str, Any] = {"__annotations__": dict.fromkeys(cls._fields_of_record, "Any")}
    for one in cls._fields_of_record.values():
        if one.default_factory is not None:
            body[one.name] = dataclasses.field(default_factory=one.default_factory, compare=one.compare)
        elif one.by_name and one.default is MISSING:
            body[one.name] = dataclasses.field(kw_only=True)
        elif one.default is not MISSING:
            body[one.name] = one.default
    return getattr(dataclasses.dataclass(frozen=frozen)(type(cls.__name__, (), body)), name)


if TYPE_CHECKING:
    from dataclasses import asdict, dataclass, field, fields, replace
else:
    asdict, dataclass, field, fields, replace = _asdict, _dataclass, _field, _fields, _replace

__all__ = ["MISSING", "asdict", "dataclass", "field", "fields", "replace"]
