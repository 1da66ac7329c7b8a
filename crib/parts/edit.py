"""Changes of a part's text: every line that a change doesn't touch stays as its owner wrote it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from typing import Any

from crib.findings.errors import CribError
from crib.parts.blocks import HEADER, Block, blocks_of, parsed, spelt
from crib.parts.toml import part_from_toml

_NAME = re.compile(r"""\s*name\s*=\s*["'](.*?)["']""")


def begun(name: str, head: Mapping[str, Any]) -> str:
    """The text of a new part.

    >>> print(begun("slide", {"stock": "4 x 2 x 1", "hours": 2}), end="")
    name = "slide"
    stock = "4 x 2 x 1"
    hours = 2
    """
    return _joined([Block(1, tuple(f"{key} = {spelt(value)}" for key, value in {"name": name, **head}.items()))])


def with_head(text: str, said: Mapping[str, Any]) -> str:
    """The text with other values in its head; None takes a line away."""
    head, *rest = blocks_of(text)
    return _joined([_with(head, said), *rest])


def with_feature(text: str, said: Mapping[str, Any]) -> str:
    """The text with one feature more, at its end."""
    lines = tuple(f"{key} = {spelt(value)}" for key, value in said.items())
    blocks = blocks_of(text.rstrip("\n") + "\n")
    return _joined([*blocks, Block(0, ("", HEADER, *lines))])


def without(text: str, name: str) -> str:
    """The text without a feature. Raises `CribError` where there is none of that name."""
    blocks = list(blocks_of(text))
    blocks.remove(_block(text, name))
    return _joined(blocks)


def changed(text: str, name: str, said: Mapping[str, Any]) -> str:
    """The text with other values of a feature; None takes a line away. Raises `CribError` where there is no such."""
    block = _block(text, name)
    return _joined([_with(one, said) if one is block else one for one in _as_is(text, block)])


def said_of(text: str, name: str) -> Mapping[str, Any]:
    """What the block of a feature says, nothing where it can't be read. Raises `CribError` where there is no such."""
    try:
        return parsed(_block(text, name))
    except tomllib.TOMLDecodeError:
        return {}


def names_in(text: str) -> list[str]:
    """What the features of a text are called, those that can't be read too, by their first line where they don't say.
    """
    return [_named(text, block) for block in blocks_of(text)[1:]]


def _named(text: str, block: Block) -> str:
    known = {one.first: name for name, one in part_from_toml(text).blocks.items()}
    said = next((found[1] for line in block.lines if (found := _NAME.match(line))), "")
    return known.get(block.first) or said or f"line {block.first}"


def _as_is(text: str, block: Block) -> Iterable[Block]:
    return (block if one.first == block.first else one for one in blocks_of(text))


def _block(text: str, name: str) -> Block:
    """The block of a feature by its name, or by its number in the list. Raises `CribError`."""
    blocks, names = blocks_of(text)[1:], names_in(text)
    wanted = name.strip().casefold()
    for one, called in zip(blocks, names, strict=True):
        if called.casefold() == wanted:
            return one
    if wanted.isascii() and wanted.isdigit() and 1 <= int(wanted) <= len(blocks):
        return blocks[int(wanted) - 1]
    right = "one of " + ", ".join(names) if names else "it has none yet"
    raise CribError("no-feature", f"the part has no feature {name!r}", name, right)


def _with(block: Block, said: Mapping[str, Any]) -> Block:
    """A block with other values; what it didn't say yet goes behind its last line that says something."""
    lines = list(block.lines)
    for key, value in said.items():
        at, end = _lines_of(lines, key)
        comment = _comment(lines[at]) if at >= 0 and end == at + 1 else ""
        new = [] if value is None else [f"{key} = {spelt(value)}{comment}"]
        if at < 0:
            at = end = 1 + max((place for place, line in enumerate(lines) if line.strip()), default=-1)
        lines[at:end] = new
    return Block(block.first, tuple(lines))


def _lines_of(lines: Sequence[str], key: str) -> tuple[int, int]:
    """From where to where a key stands with its value; -1 where it doesn't."""
    found = re.compile(rf"""\s*["']?{re.escape(key).replace("_", "[_-]").replace(chr(92) + "-", "[_-]")}["']?\s*=""")
    at = next((place for place, line in enumerate(lines) if found.match(line)), -1)
    for end in range(at + 1, len(lines) + 1) if at >= 0 else ():
        with suppress(tomllib.TOMLDecodeError):
            tomllib.loads("\n".join(lines[at:end]) + "\n")
            return at, end
    return at, at + 1


def _comment(line: str) -> str:
    """What its owner wrote behind a line, with the room before it."""
    for found in re.finditer(r"\s*#", line):
        with suppress(tomllib.TOMLDecodeError):
            tomllib.loads(line[: found.start()] + "\n")
            return line[found.start():]
    return ""


def _joined(blocks: Iterable[Block]) -> str:
    text = "".join(block.text for block in blocks)
    return text.rstrip("\n") + "\n"
