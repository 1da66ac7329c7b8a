"""The ways to say a kind of cutter, spelt out for people from the patterns that they are read by."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from crib.cutters.base import Kind

_JOINS = " -"


def ways(kind: Kind) -> tuple[str, ...]:
    """How a shop says a kind, in the singular and as short as it is still read; its own name first.

    >>> from crib.cutters import KINDS
    >>> ways(KINDS["countersink"])
    ('countersink', 'counter sink', 'csk', 'c sink', "c'sink")
    """
    said = (way for name in kind.speech.names for way in spelt(name.pattern))
    return tuple(dict.fromkeys((kind.words, *said)))


def spelt(pattern: str) -> list[str]:
    """What a pattern reads: each choice, and of what may be left out only what joins two words.

    >>> spelt("(?:key ?seats?|woodruff) ?(?:cutters?|mills?)")
    ['key seat cutter', 'key seat mill', 'woodruff cutter', 'woodruff mill']
    """
    found, end = _choices(pattern, 0)
    if end != len(pattern):
        raise ValueError(f"{pattern!r} has a bracket too many")
    return found


def _choices(pattern: str, at: int) -> tuple[list[str], int]:
    """Everything up to the bracket that closes, or the end."""
    found: list[str] = []
    parts: list[list[str]] = []
    while at < len(pattern) and pattern[at] != ")":
        if pattern[at] == "|":
            found, parts, at = [*found, *_joined(parts)], [], at + 1
            continue
        part, at = _part(pattern, at)
        if pattern[at:at + 1] == "?":
            part, at = part if part[0] and part[0] in _JOINS else [""], at + 1
        parts.append(part)
    return [*found, *_joined(parts)], at


def _part(pattern: str, at: int) -> tuple[list[str], int]:
    """A sign, one of some signs, or what stands in brackets; what must not stand there says nothing."""
    if pattern.startswith("(?", at):
        start = pattern.index(":", at) + 1 if pattern.startswith("(?:", at) else at + 3
        inner, end = _choices(pattern, start)
        return inner if pattern.startswith("(?:", at) else [""], end + 1
    if pattern[at] == "[":
        return [pattern[at + 1]], pattern.index("]", at) + 1
    return [pattern[at]], at + 1


def _joined(parts: list[list[str]]) -> Iterator[str]:
    return ("".join(one) for one in product(*parts))
