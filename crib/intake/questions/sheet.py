"""The sheet that a question is read on: what is left of its line, what was made of the rest, and what must be asked."""

from __future__ import annotations

import re

from crib.findings.errors import CribError
from crib.light.records import dataclass, field

GAP, KIND = "¦", "‖"
"""What stands in the place of words that were read, so that their neighbours stay where they were; in that of the
kind's name."""

_HYPHEN = (r"(?<=[a-z])-(?=[a-z])|(?<=\bc)['/](?=bore|sink|sunk)|"
           r"(?<=\d)-(?=(?:inch|in|mm|thou|deg|degrees?)\b)")
"""A hyphen that says nothing: `T-slot`, `1/4-inch`."""


@dataclass
class Sheet:
    """`line`: the question with the signs of a keyboard, as it was typed otherwise; `low`: the same in small letters,
    what was read blanked out. `texts`: what was read by key, `asks`: what can't be told from the words, `strange`:
    words that nothing was made of; `name`: those that named the kind; `before`: the line before
    any of it was read. `bare`: the sizes that were
    placed without a name, `beside`: such with the word behind them of which nothing was made."""

    line: str
    low: str = ""
    texts: dict[str, str] = field(default_factory=dict)
    asks: list[CribError] = field(default_factory=list)
    strange: list[str] = field(default_factory=list)
    kind: str = ""
    name: str = ""
    before: str = ""
    is_plural: bool = False
    bare: list[str] = field(default_factory=list)
    beside: dict[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        low = "".join(small if len(small := sign.lower()) == 1 else sign for sign in self.line)
        self.low = self.low or (re.sub(_HYPHEN, " ", low) if "-" in low or "c'" in low or "c/" in low else low)

    def find(self, pattern: str) -> re.Match[str] | None:
        """The first place where a pattern stands as words of its own in what is left."""
        return re.search(rf"(?<![\w/.-])(?:{pattern})(?![\w/]|\.\d)", self.low)

    def take(self, pattern: str) -> re.Match[str] | None:
        """The same, and it is gone from what is left."""
        if found := self.find(pattern):
            self.blank(*found.span())
        return found

    def blank(self, start: int, end: int, sign: str = GAP) -> None:
        """Take a piece away; what stands beside it stays where it is."""
        self.low = self.low[:start] + sign * (end - start) + self.low[end:]

    def put(self, key: str, text: str) -> None:
        """What was read for a key; asks where something else was read for it before."""
        text = " ".join(text.split()).strip(" ,;")
        before = self.texts.setdefault(key, text)
        if before != text:
            name = key.replace("_", " ")
            self.ask(f"{name} is {before} and {text}: which?", text, "say it once")

    def ask(self, what: str, read: str, right: str) -> None:
        """Keep something that must be asked."""
        self.asks.append(CribError("words", what, read, right))
