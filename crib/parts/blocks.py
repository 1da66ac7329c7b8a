"""The text of a part in blocks: its head and one block for each feature, so that a line that can't be read takes
nothing else with it, and a change leaves every other line as its owner wrote it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from typing import Any

from crib.findings.errors import failure
from crib.findings.finding import Finding
from crib.findings.message import Message, Text, said
from crib.light.records import replace
from crib.light.tuples import NamedTuple

_HEADER = re.compile(r"\s*\[\[\s*feature\s*\]\]\s*(#.*)?$")
_AT_LINE = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)")
HEADER = "[[feature]]"


class Block(NamedTuple):
    """Some lines of a part's text, and the number of the first."""

    first: int
    lines: tuple[str, ...]

    @property
    def text(self) -> str:
        """The lines as they stand."""
        return "".join(f"{line}\n" for line in self.lines)


def blocks_of(text: str) -> tuple[Block, ...]:
    """The head, then one for each feature, with the comment right over it. A header within a text of several lines is
    none.

    >>> [block.first for block in blocks_of('name = "a"\\n[[feature]]\\nkind = "slot"\\n[[feature]]\\n')]
    [1, 2, 4]
    """
    starts, open_by = [0], ""
    lines = text.replace("\r\n", "\n").removesuffix("\n").split("\n")
    for at, line in enumerate(lines):
        if not open_by and _HEADER.match(line):
            starts.append(at)
        open_by = _left_open(line, open_by)
    starts = [_with_its_comment(lines, at) for at in starts]
    ends = [*starts[1:], len(lines)]
    return tuple(Block(a + 1, tuple(lines[a:b])) for a, b in zip(starts, ends, strict=True))


def _with_its_comment(lines: Sequence[str], at: int) -> int:
    """Where a block begins with what its owner wrote right over it."""
    while at and lines[at - 1].lstrip().startswith("#"):
        at -= 1
    return at


def _left_open(line: str, open_by: str) -> str:
    """The quotes by which a text of several lines is open at the end of a line."""
    for found in re.finditer(r'"""|\'\'\'|#', line):
        if found[0] == open_by:
            open_by = ""
        elif not open_by:
            if found[0] == "#":
                return ""
            open_by = found[0]
    return open_by


def parsed(block: Block) -> Mapping[str, Any]:
    """What a block says; numbers as they are typed. Raises `tomllib.TOMLDecodeError`."""
    read = tomllib.loads(block.text, parse_float=str)
    features = read.get("feature")
    if isinstance(features, list) and features:
        return {**features[0], **{key: value for key, value in read.items() if key != "feature"}}
    return read


def fault_line(block: Block, error: tomllib.TOMLDecodeError) -> int:
    """The line of the whole text at which a block can't be read: the one without which it can, else the one at which
    reading stopped, as far as anything stands there. A bracket that is left open stops it at the end."""
    found = _AT_LINE.search(str(error))
    stopped: int = min(int(found[1]) if found and found[1] else len(block.lines), len(block.lines)) - 1
    for at in (stopped, *range(len(block.lines))):
        if block.lines[at].strip() and _is_read(Block(block.first, (*block.lines[:at], "", *block.lines[at + 1:]))):
            return block.first + int(at)
    last = max((at for at in range(stopped + 1) if block.lines[at].strip()), default=0)
    return int(block.first + last)


def _is_read(block: Block) -> bool:
    try:
        parsed(block)
    except tomllib.TOMLDecodeError:
        return False
    return True


def not_toml(block: Block, error: tomllib.TOMLDecodeError) -> Finding:
    """What is wrong with the line at which a block can't be read, and what would be right."""
    line = fault_line(block, error)
    read = block.lines[line - block.first].strip() if block.lines else ""
    if "overwrite" in str(error) or "twice" in str(error):
        return unread(line, f"{read!r} says again what is said above it", read, "one line for each")
    return unread(line, f"{read!r} can't be read", read, _right(read))


def unread(line: int, what: Text, read: Text, right: Text) -> Finding:
    """Something of a part's text that can't be read, with its line."""
    return failure("part-line", said("line {line}: {what}", line=line, what=what), read, right)


def line_told(found: Finding) -> int:
    """The line of which a finding tells; nought where it tells of none."""
    line = dict(found.says.facts).get("line", 0) if isinstance(found.says, Message) else 0
    return line if isinstance(line, int) else 0


def plainly(found: Finding) -> Finding:
    """The same without its line, for whoever typed no lines."""
    facts = dict(found.says.facts) if isinstance(found.says, Message) else {}
    what = facts.get("what")
    return replace(found, says=what) if isinstance(what, str | Message) and "line" in facts else found


def _right(read: str) -> str:
    key, equals, value = read.partition("=")
    key, value = key.strip(), value.strip()
    if equals and re.fullmatch(r"[A-Za-z_-]+", key):
        plain = value.strip("\"'").replace("\\", "").replace('"', "")
        return f'{key} = "{plain or "..."}": what is said stands in quotes'
    return 'a line such as width = "1/2", and [[feature]] over each feature'


def line_of(block: Block, key: str) -> int:
    """The line of the whole text on which a key of a block stands, else the block's first."""
    found = re.compile(rf"""\s*["']?{key.replace("_", "[_-]")}["']?\s*=""")
    return next((block.first + at for at, line in enumerate(block.lines) if found.match(line)), block.first)


def spelt(value: object) -> str:
    """A value as it is written: texts in quotes, several in brackets.

    >>> print(spelt('1/2"'), spelt(["a", "b"]), spelt("a\\u007f"))
    "1/2\\"" ["a", "b"] "a\\u007f"
    """
    if isinstance(value, str):
        return '"' + "".join(_ESCAPED.get(sign) or _sign(sign) for sign in value) + '"'
    if isinstance(value, Sequence):
        return f"[{', '.join(map(spelt, value))}]"
    return str(value).lower() if isinstance(value, bool) else str(value)


_ESCAPED = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}


def _sign(sign: str) -> str:
    """A sign as it may stand in a text; one that splits lines or is none on paper by its number."""
    code = ord(sign)
    plain = code >= 32 and code != 127 and not 0x80 <= code < 0xA0 and code not in (0x2028, 0x2029)
    return sign if plain else f"\\u{code:04x}"
