"""Questions in words: read, checked, and put as the options that they stand for."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from crib.findings.errors import CribError
from crib.intake.questions import Lack, Question, lacking, names_a_kind, read_question, would_do
from crib.intake.questions.mixed_units import bare_of, in_mm_too, is_in_mm
from crib.light.records import dataclass, replace
from crib.safety.refer import refer

__all__ = ["Heard", "Lack", "Question", "checked", "hear", "heard", "lacking", "missing", "names_a_kind"]

_IN_SIZE = re.compile(r"(?<![\w./-])(\d+(?:[.,]\d+)?) in (diameter|dia|width|depth|length|thickness)\b", re.IGNORECASE)
_BARE_POINT = re.compile(r"^(?:about )?\.\d+$")


@dataclass(frozen=True)
class Heard:
    """A question in words as it was read: its words, the kind, what was read by key, and which words weren't used or
    were read as others."""

    question: Question

    @property
    def lines(self) -> list[str]:
        """What was read, as it may be typed again, and what wasn't."""
        asked = self.question
        lines = [f"Read      {asked.echo}"]
        if asked.read_as:
            lines.append("Spelt     " + ", ".join(f"{word} read as {meant}" for word, meant in asked.read_as.items()))
        if asked.unused:
            lines.append("Not used  " + ", ".join(asked.unused))
        return lines

    def as_json(self) -> dict[str, Any]:
        """What was read by key, and the words that weren't used."""
        return {"read": dict(self.question.texts), "read_line": self.question.echo,
                "unused": list(self.question.unused), "read_as": dict(self.question.read_as)}

    def check_units(self, units: str) -> None:
        """Raises `CribError` for a size that is written as inches are, in a crib of millimetres; and in one of inches
        for a bare one beside others in millimetres."""
        self._check_mixed(units)
        if units == "mm" and (found := _IN_SIZE.search(self.question.line)):
            raise CribError("words", f"is {found[0]!r} so many inches, or mm?", found[0],
                            f"{found[1]}mm {found[2]}, or {found[1]} inch {found[2]}")
        for key, text in self.question.texts.items():
            if units == "mm" and _BARE_POINT.match(text):
                raise CribError("words", f"is the {key.replace('_', ' ')} {text} in inches or mm?", text,
                                f"{text.removeprefix('about ')}in or 0{text.removeprefix('about ')}mm")

    def _check_mixed(self, units: str) -> None:
        kind, texts = self.question.kind, self.question.texts
        if units == "in" and (bare := bare_of(kind, texts)) and (others := is_in_mm(kind, texts)):
            key, text = bare[0]
            raise CribError("words", f"is the {key.replace('_', ' ')} {text} in mm, as {others}, or in inches?", text,
                            f"{text}mm or {text}in")


def hear(text: str) -> Question:
    """A question as it was read. Words that weren't used and that tell of work that is no bench decision count as its
    use, and figures beside millimetres that could hardly be inches as such."""
    asked = read_question(text)
    if asked.kind:
        asked = replace(asked, texts=in_mm_too(asked.kind, asked.texts))
    if asked.unused and "use" not in asked.texts and refer(" ".join(asked.unused), None) is not None:
        return replace(asked, texts={**asked.texts, "use": " ".join(asked.unused)}, unused=())
    return asked


def checked(asked: Question) -> Question:
    """The question, if nothing of it must be asked. Raises `CribError` with what must."""
    if not asked.asks:
        return asked
    whats = [str(one) for one in asked.asks]
    read = f"read as {asked.echo}: " if asked.kind and asked.texts else ""
    raise CribError("words", read + "; ".join(whats), asked.line,
                    "; ".join(dict.fromkeys(str(one.finding.fix) for one in asked.asks if one.finding.fix)))


def missing(asked: Question, lacks: tuple[Lack, ...]) -> CribError:
    """The error for what a question lacks: what it is, and a whole line that would do."""
    what = " and ".join(f"its {one.name} ({one.words})" for one in lacks)
    instead = "".join(f", or {key.replace('_', ' ')}" for key in dict.fromkeys(k for one in lacks for k in one.instead))
    said = f"read as {asked.echo}: it lacks {what}{instead}"
    return CribError("words", said, asked.line, f'such as: crib make "{would_do(asked.echo, lacks)}"')


def heard(text: str, units: str, given: Mapping[str, str] | None = None) -> Heard:
    """A whole question in words. `given`: what is said beside it, by key. Raises `CribError` for what can't be told
    from the words and for what is missing."""
    asked = checked(hear(text))
    lacks = lacking(asked.kind, {**asked.texts, **(given or {})}, units)
    if lacks:
        raise missing(asked, lacks)
    found = Heard(asked)
    found.check_units(units)
    return found
