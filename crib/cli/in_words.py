"""Questions in words on a command line: `crib make "3/8 slot 1/4 deep"`, `crib "what makes a 3/8 slot 1/4 deep"`. They
are put as the options that they stand for, so that everything behind it knows of options alone."""

from __future__ import annotations

from collections.abc import Sequence

from crib.app.in_words import Heard, Lack, Question, checked, hear, lacking, missing, names_a_kind
from crib.app.kinds import NAMES
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.commands import ASKING
from crib.cli.declared import YES_NO
from crib.cli.meant import means_another
from crib.findings.errors import CribError
from crib.light.records import replace

_BEGINS = ("what", "which", "how", "can", "who", "is", "do", "does")


def in_options(asked: Asked, rest: list[str]) -> tuple[Asked, list[str]]:
    """A command line with its words put as options, and what was read of them; the same where it has no question in
    words. Asks for what is missing where somebody is there to answer. Raises `CribError`."""
    command, text, options = _parted(rest)
    if not text:
        return asked, rest
    question = _whole(asked, checked(_named(asked, hear(text), options)), options)
    given = _typed(options)
    said: list[str] = []
    for key, value in question.texts.items():
        name = "--" + key.replace("_", "-")
        if name in given:
            raise CribError("words", f"{key.replace('_', ' ')} is said in words and by {name}", value, "one of the two")
        said.append(name if key in YES_NO else f"{name}={value}")
    return replace(asked, heard=Heard(question)), [command, question.kind, *said, *options]


def _parted(rest: Sequence[str]) -> tuple[str, str, list[str]]:
    """The command, the question in words behind it, and the options; no question where there is none."""
    command, *words = rest
    if command in ASKING:
        many = next((at for at, word in enumerate(words) if word.startswith("-")), len(words))
        if not many:
            many = 1 + next((at for at, word in enumerate(words) if " " in word and names_a_kind(word)), len(words))
            return command, (words[many - 1] if many <= len(words) else ""), [*words[: many - 1], *words[many:]]
        text = " ".join(words[:many])
        is_question = " " in text or (text not in NAMES and names_a_kind(text))
        return command, text if is_question else "", list(words[many:])
    many = next((at for at, word in enumerate(rest) if word.startswith("-")), len(rest))
    text = " ".join(rest[:many])
    first, *more = text.lower().split() or [""]
    is_question = bool(more) and not means_another(first, ASKING) and names_a_kind(text) and (
        first in _BEGINS or any(sign.isdigit() for sign in text))
    return ASKING[0], text if is_question else "", list(rest[many:])


def _typed(options: Sequence[str]) -> dict[str, str]:
    """The options that are typed, with what stands behind each."""
    found: dict[str, str] = {}
    for at, word in enumerate(options):
        if word.startswith("--"):
            name, equals, value = word.partition("=")
            behind = options[at + 1] if at + 1 < len(options) else ""
            found[name] = value if equals else behind if not behind.startswith("-") else "yes"
    return found


def _named(asked: Asked, question: Question, options: Sequence[str]) -> Question:
    """The question with a size named that it can't be told of what it is, asked for where somebody is there; as it is
    where nobody is, where nothing is answered, or where more than that must be asked."""
    if asked.json or not out.is_asking() or {"-h", "--help"} & set(options):
        return question
    while len(question.asks) == 1 and question.texts:
        finding = question.asks[0].finding
        size, line = str(finding.read), question.line
        if not any(sign.isdigit() for sign in size) or line.split().count(size) != 1:
            return question
        out.note(f"Read      {question.echo}")
        said = _answer(f"{question.asks[0]} {finding.fix}: ")
        if not said:
            return question
        words = said if any(sign.isdigit() for sign in said) else f"{said} {size}"
        again = hear(" ".join(f", {words}" if word == size else word for word in line.split()))
        if again.asks or len(again.texts) <= len(question.texts):
            out.note(f"{said!r} isn't read as what {size} is")
            continue
        question = again
    return question


def _whole(asked: Asked, question: Question, options: Sequence[str]) -> Question:
    """The question with all that it needs, asked for one by one where somebody is there. Raises `CribError`."""
    given = {name.lstrip("-").replace("-", "_"): value or "yes" for name, value in _typed(options).items()}
    units = asked.units or "in"
    while lacks := lacking(question.kind, {**question.texts, **given}, units):
        if {"-h", "--help"} & set(options):
            return question
        if asked.json or not out.is_asking():
            raise missing(question, lacks)
        question = _asked_for(question, lacks)
    return question


def _asked_for(question: Question, lacks: tuple[Lack, ...]) -> Question:
    """Ask for the first thing that is missing, until it can be read. Raises `CribError` where no answer comes."""
    lack = lacks[0]
    instead = "".join(f", or say {key.replace('_', ' ')} and what it is" for key in lack.instead[:1])
    out.note(f"Read      {question.echo}")
    while True:
        said = _answer(f"{lack.name} ({lack.words}{instead}), such as {lack.example}: ")
        if not said:
            raise missing(question, lacks)
        named = said if said[0].isalpha() and " " in said else f"{lack.name} {said}"
        again = hear(f"{question.echo}, {named}")
        if not again.asks and len(again.texts) > len(question.texts):
            return replace(again, unused=question.unused, read_as=question.read_as)
        out.note("; ".join(map(str, again.asks)) or f"{said!r} isn't read as its {lack.name}")


def _answer(prompt: str) -> str:
    try:
        return input(prompt).strip()
    except EOFError:
        print()
        return ""
