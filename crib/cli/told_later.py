"""What came of many lines, told when all of it is kept: until then it waits on the disk, and not in memory."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from contextlib import ExitStack
from tempfile import TemporaryFile
from typing import IO, TYPE_CHECKING, Any

from crib.app.take_in import HeldBack
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.take_in_told import check_document, document, said, table_document

if TYPE_CHECKING:
    from crib.app.opening import Cutter
    from crib.app.tables import Entry
    from crib.app.take_in import Outcome

_EMPTY = document([], 0)


class Waiting:
    """Texts that wait on the disk, in sections: lines, or the items of the lists of a JSON document. Use it as a
    context."""

    def __init__(self) -> None:
        self._open = ExitStack()
        self._files: dict[str, IO[str]] = {}

    def __enter__(self) -> Waiting:
        return self

    def __exit__(self, *_: object) -> None:
        self._open.close()

    def put(self, section: str, text: str, between: str = "\n") -> None:
        """Put down a text behind those that are in a section."""
        if section in self._files:
            text = between + text
        else:
            self._files[section] = self._open.enter_context(TemporaryFile("w+", encoding="utf-8"))  # noqa: SIM115
        self._files[section].write(text)

    def item(self, section: str, item: Any) -> None:
        """Put down an item of a document's list."""
        self.put(section, "    " + json.dumps(item, indent=2, allow_nan=False).replace("\n", "\n    "), ",\n")

    def kept(self, section: str) -> Iterator[str]:
        """What was put down in a section, line by line."""
        if section in self._files:
            self._files[section].seek(0)
            yield from self._files[section]

    def forget(self) -> None:
        """Nothing of it is told."""
        self._open.close()
        self._files = {}

    def print(self, sections: Iterable[str], last: str = "") -> None:
        """The document: these lists in this order, and what stands behind them."""
        between = "{\n"
        for section in sections:
            print(f'{between}  "{section}": [', end="" if section not in self._files else "\n")
            for line in self.kept(section):
                print(line, end="")
            print("]" if section not in self._files else "\n  ]", end="")
            between = ",\n"
        print(f"{between}{last}\n}}" if last else "\n}")


class ToldLater:
    """Outcomes as they come, None for a line that was passed over. Use it as a context."""

    def __init__(self, asked: Asked, numbered: bool) -> None:
        self.asked, self.numbered = asked, numbered
        self.over, self.is_any_done = 0, False
        self._waiting = Waiting()

    def __enter__(self) -> ToldLater:
        return self

    def __exit__(self, *_: object) -> None:
        self._waiting.forget()

    def add(self, outcome: Outcome | None) -> None:
        """Put down what is to be told of a line."""
        if outcome is None:
            self.over += 1
            return
        self.is_any_done = self.is_any_done or outcome.is_done
        if not self.asked.json:
            self._waiting.put("lines", said(outcome, self.numbered))
            return
        for section, items in document([outcome], 0).items():
            for item in items if isinstance(items, list) else ():
                self._waiting.item(section, item)

    def tell(self) -> None:
        """Tell all of it."""
        if not self.asked.json:
            out.answer(self.asked, None, (line.rstrip("\n") for line in self._waiting.kept("lines")))
            return
        self._waiting.print((name for name, items in _EMPTY.items() if isinstance(items, list)),
                            f'  "passed_over": {self.over}')


class TableLater(Waiting):
    """The entries of a table as they are taken in or held back, for the document that is told when all are."""

    def __enter__(self) -> TableLater:
        return self

    def add(self, one: Entry, cutter: Cutter | None) -> None:
        """Put down what is to be told of an entry, and of the cutter that it became."""
        document = table_document([(one.line, cutter)] if cutter else [], [one] if isinstance(one, HeldBack) else [])
        for section, items in document.items():
            for item in items:
                self.item(section, item)

    def tell(self) -> None:
        """Tell all of it."""
        self.print(table_document([], []))


class CheckLater(Waiting):
    """The entries of a table as they would be taken in or held back, for the document that is told when all are
    read."""

    def __enter__(self) -> CheckLater:
        return self

    def add(self, one: Entry, cutter: Cutter | None) -> None:
        """Put down how an entry is read."""
        document = check_document([(one.line, cutter)] if cutter else [], [one] if isinstance(one, HeldBack) else [])
        for section, items in document.items():
            for item in items:
                self.item(section, item)

    def tell(self) -> None:
        """Tell all of it."""
        self.print(check_document([], []))
