"""How records are filled in. Most classes make a handful of them in a run, which one function for all of them does well
enough; what is written for a class alone is compiled once it has made a thousand."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from crib.light.hints import Any

MISSING: Any = object()
"""The default of a field that must be given."""

put = object.__setattr__

FEW = 1000
"""So many records of a class are made before a function of its own pays: that takes as long to compile as some hundred
records, and is hardly quicker where they have many fields."""


class Field:
    """A field: its name, what it is where nothing is given, or what makes that, and what it counts for."""

    __slots__ = ("by_name", "compare", "default", "default_factory", "name", "repr")

    def __init__(self, name: str, default: Any, default_factory: Callable[[], Any] | None = None, compare: bool = True,
                 repr: bool = True) -> None:
        self.name, self.default, self.default_factory, self.compare, self.repr = (
            name, default, default_factory, compare, repr)
        self.by_name = False


def first_init(cls: Any, frozen: bool) -> Callable[..., None]:
    """The `__init__` of a class while it has made few records: fills one in with what is given, and with what is usual.
    What isn't plainly right is left to the one that is written for the class, which alone says what is wrong. What it
    goes by is read of the class when it makes its first."""
    order: tuple[str, ...] = ()
    in_order, left, after = 0, FEW, False
    fill: Callable[[Any, Iterable[Any]], None] | None = None
    behind: dict[int, tuple[Any, ...] | None] = {}
    by_name: Callable[..., bool] | None = None

    def __init__(record: Any, *values: Any, **named: Any) -> None:
        nonlocal order, in_order, left, after, fill, by_name
        left -= 1
        many = len(values)
        if many not in behind:
            if not behind:
                order, in_order = _order(cls)
                fill, after = _fill(cls, order), hasattr(cls, "__post_init__")
            behind[many] = _behind(cls, order, in_order, many)
        if named or left < 0 or (usual := behind[many]) is None:
            if by_name is None:
                by_name = _by_name(cls, order, in_order, fill)
            if left < 0 or not by_name(record, values, named):
                cls.__init__ = _write(cls, frozen)
                cls.__init__(record, *values, **named)
                return
        elif fill is None:  # most are made so
            record.__dict__.update(zip(order, values + usual))  # noqa: B905
        else:
            fill(record, values + usual)
        if after:
            record.__post_init__()

    return __init__


def _order(cls: Any) -> tuple[tuple[str, ...], int]:
    """The names of a class's fields, those that may be given in order first, and how many these are."""
    known: dict[str, Field] = cls._fields_of_record
    names = [name for name, one in known.items() if not one.by_name]
    return (tuple(known), len(names)) if len(names) == len(known) else (
        (*names, *(name for name, one in known.items() if one.by_name)), len(names))


def _fill(cls: Any, order: Iterable[str]) -> Callable[[Any, Iterable[Any]], None] | None:
    """What puts values into a record whose fields are in slots, in that order; None where they are in a dictionary."""
    if "__slots__" not in vars(cls):
        return None
    slots = [vars(cls)[name].__set__ for name in order]

    def fill(record: Any, values: Iterable[Any]) -> None:
        for into, value in zip(slots, values, strict=True):
            into(record, value)

    return fill


def _behind(cls: Any, order: tuple[str, ...], in_order: int, many: int) -> tuple[Any, ...] | None:
    """What is usual of the fields behind so many values that are given in order; None where that isn't plainly right,
    or is made for each record."""
    known: dict[str, Field] = cls._fields_of_record
    usual = tuple([known[name].default for name in order[many:]])
    return None if many > in_order or MISSING in usual else usual


def _by_name(cls: Any, order: tuple[str, ...], in_order: int,
             fill: Callable[[Any, Iterable[Any]], None] | None) -> Callable[..., bool]:
    """What fills in a record of which something is given by its name, or made for it; false where what is given isn't
    plainly right."""
    known: dict[str, Field] = cls._fields_of_record
    usual = {name: known[name].default for name in order}
    made = [(name, make) for name in order if (make := known[name].default_factory) is not None]
    musts = {name for name, one in usual.items() if one is MISSING}.difference([name for name, _ in made])
    shapes: dict[tuple[object, ...], bool] = {}

    def by_name(record: Any, values: tuple[Any, ...], named: dict[str, Any]) -> bool:
        many = len(values)
        shape = (many, *named)
        if shape not in shapes:
            first, both = {*order[:many]}, {*order[:many], *named}
            shapes[shape] = many <= in_order and first.isdisjoint(named) and musts <= both <= usual.keys()
        if not shapes[shape]:
            return False
        given: dict[str, Any] = {} if fill else record.__dict__
        given.update(usual)
        given.update(named)
        given.update(zip(order, values))  # noqa: B905
        for name, make in made:
            if given[name] is MISSING:
                given[name] = make()
        if fill:
            fill(record, given.values())
        return True

    return by_name


def _write(cls: type[Any], frozen: bool) -> Any:
    """The `__init__` of a class, as one would write it by hand."""
    told: dict[str, Any] = {"_put": put, "_missing": MISSING}
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


