"""What `crib --help` shows: every command with its line of help. Made without a library, and at once."""

from __future__ import annotations

from collections.abc import Iterable

from crib.cli.asked import HELP
from crib.cli.commands import COMMANDS

ABOUT = "Which cutter that I already own can make this, and how?"
_BEGIN = (("crib demo", "what an answer looks like, on a sample crib"),
          ("crib take-in", "your own cutters, a line for each, as you would say it"),
          ("crib make", 'an answer: crib make "slot 3/8 wide 1/4 deep"'))
"""Where a newcomer begins, said last: the list is longer than a screen, and its end is what stays on it."""
_NARROWEST, _WIDEST = 50, 78


def first_page(columns: int) -> str:
    """The page for a terminal of so many columns."""
    width = max(min(columns - 2, _WIDEST), _NARROWEST)
    commands = _listed([(name, entry.help) for name, entry in COMMANDS.items()], width)
    return "\n".join(["Usage: crib [OPTIONS] COMMAND [ARGS]...", "",
                      *(f"  {line}" for line in _wrapped(ABOUT, width - 2)), "",
                      "Options, before or after the command:", *_listed(HELP, width), "", "Commands:", *commands, "",
                      "Begin with:", *_listed(_BEGIN, width)])


def _listed(rows: Iterable[tuple[str, str]], width: int) -> list[str]:
    """Names with what they mean beside them."""
    rows = list(rows)
    beside = 4 + max(len(name) for name, _ in rows)
    lines = []
    for name, help in rows:
        first, *more = _wrapped(help, width - beside)
        lines += [f"  {name}".ljust(beside) + first, *(" " * beside + line for line in more)]
    return lines


def _wrapped(text: str, width: int) -> list[str]:
    lines = [""]
    for word in text.split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > width:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}".lstrip()
    return lines
