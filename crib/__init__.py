"""A tool crib and what it can make, for programs. What is named here is imported when it is wanted.

`open_crib` opens a crib; `ask`, `worth`, `tap` and `gauge` answer what the commands of those names answer (`ask` is
`crib make`), `part` how a whole part is made. Sizes go in as they are typed; answers come out frozen, in millimetres,
and `as_json()` is what `--json` prints. What can't be read or carried out raises `CribError`: its `diagnostic` says
what is wrong, and what would be right.
"""

TYPE_CHECKING = False
"""Type checkers take it as true; the one of `typing` would cost as much as the whole interpreter."""

if TYPE_CHECKING:
    from crib.door import CribError, ask, gauge, open_crib, part, tap, worth

__all__ = ["CribError", "ask", "gauge", "open_crib", "part", "tap", "worth"]


def __getattr__(name: str) -> object:
    """What stands behind the door."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from crib import door

    return getattr(door, name)


def __dir__() -> list[str]:
    """What is there, for who looks."""
    return sorted([*globals(), *__all__])
