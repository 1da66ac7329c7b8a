"""The `$ ...` blocks of the pages, run one after the other as somebody would who follows the page.

A line of three dots stands for any number of lines. `python -m tests.docs.console` writes the blocks anew with what the
program prints today: look at what changed before keeping it.
"""

from __future__ import annotations

import io
import os
import re
import shlex
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import chdir, redirect_stderr, redirect_stdout
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from pathlib import Path
from unittest.mock import patch

ROOT = Path(__file__).parents[2]
PAGES = ("README.md", "DEVELOPERS.md")
DOTS = "..."
_BLOCK = re.compile(r"^```console\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@dataclass(frozen=True)
class Typed:
    """A line that is typed, and what should come of it."""

    line: str
    shown: tuple[str, ...]


def blocks(text: str) -> list[str]:
    """The console blocks of a page, in order."""
    return _BLOCK.findall(text)


def typed(block: str) -> list[Typed]:
    """The lines of a block that are typed, each with what is shown after it; a backslash goes on in the next line."""
    found: list[Typed] = []
    lines = iter(block.splitlines())
    for line in lines:
        if line.startswith("$ "):
            while line.endswith("\\"):
                line += "\n" + next(lines)
            found.append(Typed(line.removeprefix("$ "), ()))
        else:
            found[-1] = replace(found[-1], shown=(*found[-1].shown, line))
    return found


class Terminal:
    """A terminal of a hundred columns without colour, in a folder of its own, that knows only what the pages type."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        (folder / "tmp").mkdir(exist_ok=True)
        kept = {key: os.environ[key] for key in ("PATH", "SYSTEMROOT") if key in os.environ}
        self.environment = {**kept, "HOME": str(folder), "XDG_DATA_HOME": str(folder / "data"), "COLUMNS": "100",
                            "NO_COLOR": "1", "CRIB_DB": str(folder / "crib.db")}
        self.status = 0

    def type(self, line: str) -> list[str]:
        """What one line shows. `crib` in all its forms, and `cat`, `echo $?`, `export` as a shell has them."""
        if line == "echo $?":
            return [str(self.status)]
        words = shlex.split(line.replace("\\\n", " "))
        if words[0] == "export":
            name, _, value = words[1].partition("=")
            self.environment[name] = value
            return []
        if words[0] == "cat":
            return (self.folder / words[1]).read_text(encoding="utf-8").splitlines()
        if words[0] != "crib":
            raise ValueError(f"the pages may type crib, cat, echo $? and export, not {words[0]}")
        return self._crib(words[1:])

    def _crib(self, words: Sequence[str]) -> list[str]:
        from crib.cli.app import run

        shown = io.TextIOWrapper(io.BytesIO(), encoding="utf-8", write_through=True)
        here = chdir(self.folder), patch.dict(os.environ, self.environment, clear=True)
        with here[0], here[1], redirect_stdout(shown), redirect_stderr(shown):
            self.status = int(run(words))
        shown.seek(0)
        return [line.rstrip() for line in shown.read().splitlines()]


def fits(shown: Sequence[str], is_so: Sequence[str]) -> bool:
    """Whether what a page shows is what came, dots for any lines."""
    pattern = "".join("(?:.*\n)*?" if line == DOTS else re.escape(line.rstrip()) + "\n" for line in shown)
    return re.fullmatch(pattern, "".join(f"{line}\n" for line in is_so)) is not None


def run(page: Path, folder: Path) -> Iterator[tuple[Typed, list[str]]]:
    """Follow a page from its beginning; each line with what came of it. Files that a page shows by `cat` are laid out
    first."""
    terminal = Terminal(folder)
    for block in blocks(page.read_text(encoding="utf-8")):
        for one in typed(block):
            if one.line.startswith("cat "):
                (folder / one.line.removeprefix("cat ")).write_text("\n".join(one.shown) + "\n", encoding="utf-8")
            yield one, terminal.type(one.line)


def renewed(shown: Sequence[str], is_so: Sequence[str]) -> list[str]:
    """What a page should show of what came: all of it, or the same pieces where dots left the rest out; those for which
    nothing is left are gone."""
    if DOTS not in shown:
        return list(is_so)
    pieces: list[list[str]] = [[]]
    for line in shown:
        if line == DOTS:
            pieces.append([])
        else:
            pieces[-1].append(line)
    lines, place = [], 0
    for number, piece in enumerate(pieces):
        if number:
            lines.append(DOTS)
        if place >= len(is_so):
            break
        if piece:
            first = 0 if number == 0 else _nearest(piece[0], is_so, place)
            last = len(is_so) - 1 if number == len(pieces) - 1 else _nearest(piece[-1], is_so, first)
            lines += is_so[first : last + 1]
            place = last + 1
    return lines


def _nearest(line: str, among: Sequence[str], start: int) -> int:
    return max(range(start, len(among)), key=lambda at: (SequenceMatcher(None, line, among[at]).ratio(), -at))


def renew(page: Path) -> None:
    """Write the blocks of a page anew."""
    with tempfile.TemporaryDirectory() as folder:
        came = iter(list(run(page, Path(folder))))

    def again(found: re.Match[str]) -> str:
        lines: list[str] = []
        for one in typed(found[1]):
            _, is_so = next(came)
            lines += [f"$ {one.line}", *renewed(one.shown, is_so)]
        return "```console\n" + "\n".join(lines) + "\n```"

    page.write_text(_BLOCK.sub(again, page.read_text(encoding="utf-8")), encoding="utf-8")


if __name__ == "__main__":
    for name in sys.argv[1:] or PAGES:
        renew(ROOT / name)
