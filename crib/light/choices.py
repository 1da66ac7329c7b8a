"""Choices that have names: `StrEnum` of the standard library at a tenth of the price.

A short command makes some thirty classes of them, of a hundred and fifty members, and the library takes a fiftieth of
a millisecond for each. A type checker is shown the library's own; what isn't used in this program isn't here: members
are texts that are written out, and nothing is made anew.
"""

from __future__ import annotations

from collections.abc import Iterator

from crib.light.hints import TYPE_CHECKING, Any


class _Choices(type):
    """A class whose members are the texts written in its body."""

    _by_value: dict[str, Any]

    def __new__(cls, name: str, bases: tuple[type, ...], body: dict[str, Any]) -> Any:
        texts = {key: text for key, text in body.items() if isinstance(text, str) and not key.startswith("_")}
        known: dict[str, Any] = {}
        made: Any = type.__new__(cls, name, bases, {key: each for key, each in body.items() if key not in texts})
        made._by_value = known
        for key, text in texts.items():
            if text not in known:
                member = known[text] = str.__new__(made, text)
                member.name = key
            setattr(made, key, known[text])
        return made

    def __call__(cls, value: str) -> Any:
        """The member that is said so. Raises `ValueError`."""
        if value in cls._by_value:
            return cls._by_value[value]
        raise ValueError(f"{value!r} is not a valid {cls.__qualname__}")

    def __getitem__(cls, name: str) -> Any:
        """The member with a name. Raises `KeyError`."""
        return {member.name: member for member in cls}[name]

    def __iter__(cls) -> Iterator[Any]:
        return iter(cls._by_value.values())

    def __len__(cls) -> int:
        return len(cls._by_value)

    def __bool__(cls) -> bool:
        return True

    def __contains__(cls, value: object) -> bool:
        return isinstance(value, cls)


class _Choice(str, metaclass=_Choices):
    """One of several texts."""

    name: str

    @property
    def value(self) -> str:
        """The text."""
        return str(self)

    def __repr__(self) -> str:
        return f"<{type(self).__name__}.{self.name}: {str(self)!r}>"

    def __reduce__(self) -> tuple[Any, ...]:
        return type(self), (str(self),)

    def __copy__(self) -> Any:
        return self

    def __deepcopy__(self, _: object) -> Any:
        return self


if TYPE_CHECKING:
    from enum import StrEnum as StrEnum
else:
    StrEnum = _Choice

__all__ = ["StrEnum"]
