"""What annotations name of `typing`. They are text that nobody reads in a run, and the library takes as long to load as
ten files of this program; a type checker is shown it, and so is whoever does read one."""

from __future__ import annotations

from collections.abc import Callable

TYPE_CHECKING = False


class _Named:
    """Stands for something of the library, and is that where somebody asks what is in it."""

    def __init__(self, name: str) -> None:
        self.name = name

    def __getitem__(self, of: object) -> object:
        import typing

        return getattr(typing, self.name)[of]


def _variable(name: str) -> _Named:
    return _Named(name)


def _as_it_is(function: Callable[..., object]) -> Callable[..., object]:
    return function


if TYPE_CHECKING:
    from typing import Annotated as Annotated
    from typing import Any as Any
    from typing import ClassVar as ClassVar
    from typing import Literal as Literal
    from typing import NoReturn as NoReturn
    from typing import Protocol as Protocol
    from typing import TextIO as TextIO
    from typing import TypeVar as TypeVar
    from typing import overload as overload
else:
    Any = Protocol = object
    Annotated, ClassVar, Literal, NoReturn, TextIO = map(_Named, ("Annotated", "ClassVar", "Literal", "NoReturn",
                                                                 "TextIO"))
    TypeVar, overload = _variable, _as_it_is
