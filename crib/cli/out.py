"""Everything that the program prints goes through here."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence

from crib.cli.asked import Asked
from crib.findings.finding import Finding
from crib.light.hints import TYPE_CHECKING, Any, TextIO
from crib.render.text import paragraph, plain, wide

if TYPE_CHECKING:
    from crib.pages.blocks import Block

MOST_ROWS = 200
"""Rows of a list that are shown unless all are asked for; the rest are counted."""


def prepare() -> None:
    """Let no sign that the terminal doesn't know stop the answer."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")


def answer(asked: Asked, document: Any, lines: Iterable[str] | Callable[[], Iterable[str]] = ()) -> None:
    """The answer: the document with `--json`, or the pieces of its text, else the lines. What takes long to make is a
    function. Where it was asked in words, what was read of them comes first."""
    if asked.json:
        whole = document() if callable(document) else document
        if isinstance(whole, Iterator):
            sys.stdout.writelines(whole)
            print()
            return
        import json

        print(json.dumps(whole | asked.heard.as_json() if asked.heard else whole, indent=2, allow_nan=False))
        return
    show: Callable[[str], str] = plain
    if is_coloured():
        from crib.render.terminal.paint import in_colour

        show = in_colour
    body = lines() if callable(lines) else lines
    for line in [*asked.heard.lines, "", *body] if asked.heard else body:
        for part in _fitted(line, sys.stdout):
            print(show(part))


def note(text: str) -> None:
    """A word on standard error, beside the answer."""
    for part in _fitted(text, sys.stderr):
        print(plain(part), file=sys.stderr)


def _fitted(line: str, stream: TextIO | None) -> list[str]:
    """A line as it is; on a terminal that is too narrow for it wrapped at words, further lines set in."""
    if wide(line) <= 60 or stream is None or not stream.isatty() or wide(line) <= (most := width()):
        return [line]
    lead = " " * (len(line) - len(line.lstrip()))
    return paragraph(line.strip(), most, lead, len(lead) + 2)


def failure(as_json: bool, found: Finding, units: str) -> None:
    """What went wrong: one JSON document, or a sentence and what would be right."""
    from crib.render.json.findings import error_json

    error = error_json(found, units)
    if as_json:
        import json

        print(json.dumps({"error": error}, indent=2))
        return
    note(f"crib: {error['what']}")
    if error["help"]:
        note(f"      {error['help']}")


def is_asking() -> bool:
    """Whether somebody is there to answer a question."""
    return sys.stdin is not None and sys.stdin.isatty()


def is_watched() -> bool:
    """Whether the answer goes to a terminal."""
    return sys.stdout is not None and sys.stdout.isatty()


def is_coloured() -> bool:
    """Whether the answer may be in colour: on a terminal that knows any, where nobody said that they want none."""
    return is_watched() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def flush() -> None:
    """Hand everything over, so that a full disk or a closed pipe shows itself while it can still be said."""
    if sys.stdout is not None:
        sys.stdout.flush()


def columns(usual: int = 80) -> int:
    """How wide the terminal is; as usual where there is none. As `shutil.get_terminal_size` has it, which is long in
    loading."""
    told = os.environ.get("COLUMNS", "")
    if told.isascii() and told.isdigit() and int(told) > 0:
        return int(told)
    try:
        return os.get_terminal_size(sys.__stdout__.fileno()).columns or usual  # type: ignore[union-attr]
    except (AttributeError, ValueError, OSError):
        return usual


def width() -> int:
    """How wide the page may be: the terminal, at most a hundred columns."""
    return max(60, min(100, columns(100)))


def can_draw() -> bool:
    """Whether the output's signs have lines and blocks among them."""
    from crib.render.terminal.strokes import can_draw_lines

    return can_draw_lines(getattr(sys.stdout, "encoding", None))


def shown(blocks: Iterable[Block], units: str, most: int | None = None) -> list[str]:
    """Blocks as the terminal shows them, aimed at so many lines."""
    from crib.render.terminal.lines import lines

    return lines(blocks, units, width(), can_draw(), not is_watched(), most)


def table(headings: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Aligned columns; one that is empty throughout is left out."""
    from crib.pages import blocks

    return shown([blocks.table(headings, rows, blocks.Fit.ALL)], "")


