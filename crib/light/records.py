"""Records: `dataclass`, `field`, `fields`, `replace` and `asdict` of the standard library, at a twentieth of
the price.

A short command makes some two hundred classes of records and uses half of them. The library writes and compiles six
functions for each, .3 ms, and brings in `inspect`: that was half of what a short command took. Here what is the same
for all classes is written once. How records are filled in stands in `crib.light.filling`. A type checker is shown the
library's own, and to the library's functions a record is a dataclass. What isn't used in this program isn't here:
no order, and of `field` only what makes a value.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from operator import attrgetter

from crib.light.filling import MISSING, Field, first_init, put
from crib.light.hints import TYPE_CHECKING, Any, NoReturn


def _field(*, default_factory: Callable[[], Any], compare: bool = True, repr: bool = True) -> Any:
    """`dataclasses.field`."""
    return Field("", MISSING, default_factory, compare, repr)


def _fields(record: Any) -> tuple[Field, ...]:
    """`dataclasses.fields`: of a class or of a record."""
    return tuple(record._fields_of_record.values())


def _replace(record: Any, /, **changes: Any) -> Any:
    """`dataclasses.replace`, of the library's dataclasses too."""
    cls = type(record)
    if cls not in _READ:
        names = tuple(_names(record))
        read: Callable[[Any], Iterable[Any]] = (
            attrgetter(*names) if len(names) > 1 else lambda record: [getattr(record, *names)])
        plain = hasattr(cls, "_fields_of_record") and hasattr(record, "__dict__") and not hasattr(cls, "__post_init__")
        _READ[cls] = names, frozenset(names), read, plain
    names, known, read, plain = _READ[cls]
    if not (plain and changes.keys() <= known):
        return cls(**(dict(zip(names, read(record), strict=True)) | changes))
    changed: Any = object.__new__(cls)
    its = changed.__dict__
    its.update(zip(names, read(record), strict=True))
    its.update(changes)
    return changed


_READ: dict[type[Any], tuple[tuple[str, ...], frozenset[str], Callable[[Any], Iterable[Any]], bool]] = {}
"""Of each class of which a record was changed the fields, what reads them all, and whether a record is no more than
what it is filled in with."""


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
    own: dict[str, Field] = {}
    for name in vars(cls).get("__annotations__", ()):
        default = getattr(cls, name, MISSING)
        if isinstance(default, Field):
            own[name], default.name = default, name
            delattr(cls, name)
        else:
            own[name] = Field(name, default)
        own[name].by_name = kw_only
    if slots:
        cls = _slotted(cls, own)
    known: dict[str, Field] = cls._fields_of_record | own if hasattr(cls, "_fields_of_record") else own
    given: dict[str, Any] = {"_fields_of_record": known, "__repr__": _repr, **_SHOWN,
                             "__match_args__": tuple([name for name, one in known.items() if not one.by_name])}
    if eq:
        given["__eq__"], given["__hash__"] = _equal(known, frozen)
    if frozen:
        given |= _FROZEN
    body = vars(cls)
    for name, what in given.items():
        if body.get(name) is None:
            setattr(cls, name, what)
    cls.__init__ = first_init(cls, frozen)
    return cls


def _slotted(cls: Any, own: dict[str, Field]) -> Any:
    """The class anew, its fields in slots and not in a dictionary."""
    left_out = {*own, "__dict__", "__weakref__"}
    body = {name: what for name, what in vars(cls).items() if name not in left_out}
    body |= {"__slots__": tuple(own), "__qualname__": cls.__qualname__, "__getstate__": _state, "__setstate__": _set}
    return type(cls)(cls.__name__, cls.__bases__, body)


def _equal(known: dict[str, Field], frozen: bool) -> tuple[Callable[..., Any], Callable[..., Any] | None]:
    """Records of a class are equal where all fields that count are; hashed by them where they can't change."""
    names = [name for name, one in known.items() if one.compare]
    key: Callable[[Any], Any] = attrgetter(*names) if names else lambda record: ()

    def __eq__(record: Any, other: object) -> Any:
        return key(record) == key(other) if other.__class__ is record.__class__ else NotImplemented

    def __hash__(record: Any) -> int:
        return hash(key(record))

    return __eq__, __hash__ if frozen else None


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
        put(record, name, value)


class _WhenAsked:
    """What makes a dataclass of a record in the eyes of the library's functions, made when one of them asks."""

    def __init__(self, name: str) -> None:
        self.name = name

    def __get__(self, record: object, cls: type[Any]) -> Any:
        its = next(one for one in cls.__mro__ if vars(one).get(self.name) is self)
        setattr(its, self.name, _shown(self.name, its, its.__setattr__ is _refuse))
        return getattr(its, self.name)


_SHOWN = {name: _WhenAsked(name) for name in ("__dataclass_fields__", "__dataclass_params__")}


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
