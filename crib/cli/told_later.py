"""What came of many lines, told when all of it is kept: until then it waits on the disk, and not in memory."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import ExitStack
from tempfile import TemporaryFile
from typing import IO

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.take_in_told import document, said
from crib.intake.deeds import Outcome

_EMPTY = document([], 0)


class ToldLater:
    """Outcomes as they come, None for a line that was passed over. Use it as a context."""

    def __init__(self, asked: Asked, numbered: bool) -> None:
        self.asked, self.numbered = asked, numbered
        self.over, self.is_any_done = 0, False
        self._open = ExitStack()
        self._files: dict[str, IO[str]] = {}

    def __enter__(self) -> ToldLater:
        return self

    def __exit__(self, *_: object) -> None:
        self._open.close()

    def add(self, outcome: Outcome | None) -> None:
        """Put down what is to be told of a line."""
        if outcome is None:
            self.over += 1
            return
        self.is_any_done = self.is_any_done or outcome.is_done
        if not self.asked.json:
            self._put("lines", said(outcome, self.numbered))
            return
        for section, items in document([outcome], 0).items():
            for item in items if isinstance(items, list) else ():
                self._put(section, "    " + json.dumps(item, indent=2, allow_nan=False).replace("\n", "\n    "), ",\n")

    def tell(self) -> None:
        """Tell all of it."""
        if not self.asked.json:
            out.answer(self.asked, None, (line.rstrip("\n") for line in self._kept("lines")))
            return
        print("{")
        for section in (name for name, items in _EMPTY.items() if isinstance(items, list)):
            if section not in self._files:
                print(f'  "{section}": [],')
                continue
            print(f'  "{section}": [')
            for line in self._kept(section):
                print(line, end="")
            print("\n  ],")
        print(f'  "passed_over": {self.over}\n}}')

    def _put(self, section: str, text: str, between: str = "\n") -> None:
        if section in self._files:
            text = between + text
        else:
            self._files[section] = self._open.enter_context(TemporaryFile("w+", encoding="utf-8"))  # noqa: SIM115
        self._files[section].write(text)

    def _kept(self, section: str) -> Iterator[str]:
        """What was put down in a section, line by line."""
        if section in self._files:
            self._files[section].seek(0)
            yield from self._files[section]
