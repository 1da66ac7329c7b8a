"""Records: `dataclass`, `field`, `fields`, `replace` and `asdict` of the standard library, at a twentieth of
the price.

A short command makes some two hundred classes of records and uses half of them. The library writes and compiles six
functions for each, .3 ms, and brings in `inspect`: that was half of what a short command took. Here what is the same
for all classes is written once. Most classes make a handful of records in a run, which one function for all of them
does well enough; what is written for a class alone is compiled once it has made a thousand. A type checker is shown
the library's own, and to the library's functions a record is a dataclass. What isn't used in this program isn't here:
no order, and of `field` only what makes a value.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from operator import attrgetter

from crib.light.hints import TYPE_CHECKING, Any, NoReturn

MISSING: Any = object()
"""The default of a field that must be given."""

_put = object.__setattr__

FEW = 1000
"""So many records of a class are made before a function of its own pays: that takes as long to compile as some hundred
records, and is hardly quicker where they have many fields."""


class _Field:
    """A field: its name, what it is where nothing is given, or what makes that, and what it counts for."""

    __slots__ = ("by_name", "compare", "default", "default_factory", "name", "repr")

    def __init__(self, name: str, default: Any, default_factory: Callable[[], Any] | None = None, compare: bool = True,
                 repr: bool = True) -> None:
        self.name, self.default, self.default_factory, self.compare, self.repr = (
            name, default, default_factory, compare, repr)
        self.by_name = False

    def must_be_given(self) -> bool:
        return self.default is MISSING and self.default_factory is None


def _field(*, default_factory: Callable[[], Any], compare: bool = True, repr: bool = True) -> Any:
    """`dataclasses.field`."""
    return _Field("", MISSING, default_factory, compare, repr)


def _fields(record: Any) -> tuple[_Field, ...]:
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
    own: dict[str, _Field] = {}
    for name in vars(cls).get("__annotations__", ()):
        default = getattr(cls, name, MISSING)
        if isinstance(default, _Field):
            own[name], default.name = default, name
            delattr(cls, name)
        else:
            own[name] = _Field(name, default)
        own[name].by_name = kw_only
    if slots:
        cls = _slotted(cls, own)
    known: dict[str, _Field] = cls._fields_of_record | own if hasattr(cls, "_fields_of_record") else own
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
    cls.__init__ = _first_init(cls, frozen)
    return cls


def _slotted(cls: Any, own: dict[str, _Field]) -> Any:
    """The class anew, its fields in slots and not in a dictionary."""
    left_out = {*own, "__dict__", "__weakref__"}
    body = {name: what for name, what in vars(cls).items() if name not in left_out}
    body |= {"__slots__": tuple(own), "__qualname__": cls.__qualname__, "__getstate__": _state, "__setstate__": _set}
    return type(cls)(cls.__name__, cls.__bases__, body)


def _equal(known: dict[str, _Field], frozen: bool) -> tuple[Callable[..., Any], Callable[..., Any] | None]:
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
        _put(record, name, value)


class _WhenAsked:
    """What makes a dataclass of a record in the eyes of the library's functions, made when one of them asks."""

    def __init__(self, name: str) -> None:
        self.name = name

    def __get__(self, record: object, cls: type[Any]) -> Any:
        its = next(one for one in cls.__mro__ if vars(one).get(self.name) is self)
        setattr(its, self.name, _shown(self.name, its, its.__setattr__ is _refuse))
        return getattr(its, self.name)


_SHOWN = {name: _WhenAsked(name) for name in ("__dataclass_fields__", "__dataclass_params__")}


def _first_init(cls: Any, frozen: bool) -> Callable[..., None]:
    """The `__init__` of a class of which no record was made yet."""
    def __init__(record: Any, *values: Any, **named: Any) -> None:
        cls.__init__ = _filler(cls, frozen)
        cls.__init__(record, *values, **named)

    return __init__


def _filler(cls: Any, frozen: bool) -> Callable[..., None]:
    """The `__init__` of a class while it has made few records: fills one in with what is given, and with what is usual.
    What isn't plainly right is left to the one that is written for the class, which alone says what is wrong."""
    known: dict[str, _Field] = cls._fields_of_record
    made = [(name, one.default_factory) for name, one in known.items() if one.default_factory is not None]
    names = [name for name, one in known.items() if not one.by_name]
    every = len(known) if len(names) == len(known) else None
    fill, after, left = _fill(cls, known), hasattr(cls, "__post_init__"), FEW
    shapes: dict[object, dict[str, Any] | None] = {}

    def __init__(record: Any, *values: Any, **named: Any) -> None:
        nonlocal left
        left -= 1
        if not named and len(values) == every and left >= 0:  # most are made so
            fill(record, zip(names, values))  # noqa: B905
        else:
            shape = (len(values), *named) if named else len(values)
            if shape not in shapes:
                shapes[shape] = _usual(known, names, len(values), named)
            usual = shapes[shape]
            if left < 0 or usual is None:
                cls.__init__ = _write(cls, frozen)
                cls.__init__(record, *values, **named)
                return
            given = usual | named
            given.update(zip(names, values))  # noqa: B905
            for name, make in made:
                if given[name] is MISSING:
                    given[name] = make()
            fill(record, given.items())
        if after:
            record.__post_init__()

    return __init__


def _fill(cls: Any, known: Iterable[str]) -> Callable[[Any, Iterable[tuple[str, Any]]], None]:
    """What puts values into a record, by the names of its fields and in their order."""
    if "__slots__" not in vars(cls):
        return lambda record, given: record.__dict__.update(given)
    slots = [vars(cls)[name].__set__ for name in known]

    def fill(record: Any, given: Iterable[tuple[str, Any]]) -> None:
        for put, (_, value) in zip(slots, given, strict=True):
            put(record, value)

    return fill


def _usual(known: dict[str, _Field], names: list[str], many: int, named: Iterable[str]) -> dict[str, Any] | None:
    """What a record is before so many values that are given in order and those that are given by name are put in, in
    the order of its fields; None where that isn't plainly right."""
    before, by_name = set(names[:many]), set(named)
    musts = {name for name, one in known.items() if one.must_be_given()}
    if many > len(names) or before & by_name or not musts <= before | by_name <= known.keys():
        return None
    return {name: one.default for name, one in known.items()}


def _write(cls: type[Any], frozen: bool) -> Any:
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
