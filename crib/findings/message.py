"""What is to be said, as data: a template with named facts. Units, rounding and spelling are chosen when it is worded
(`crib.render.words`), so that one answer can be read in inches and in millimetres."""

from __future__ import annotations

from collections.abc import Iterable

from crib.light.records import dataclass


def _whole(fact: object, *names: str) -> None:
    """Lengths to whole nanometres, so that what is equal at the bench is equal here."""
    for name in names:
        object.__setattr__(fact, name, round(getattr(fact, name), 6))


@dataclass(frozen=True, slots=True)
class Mm:
    """A length in mm, shown to so many places of the reader's unit; `fine`: to a tenth of a thou, or a micron;
    `sign`: with its plus."""

    mm: float
    places: int = 3
    sign: bool = False
    fine: bool = False

    def __post_init__(self) -> None:
        _whole(self, "mm")


@dataclass(frozen=True, slots=True)
class Reading:
    """What a slide is set to [mm]: to a tenth of a thou only where it isn't a whole one."""

    mm: float
    sign: bool = False

    def __post_init__(self) -> None:
        _whole(self, "mm")


@dataclass(frozen=True, slots=True)
class Measure:
    """A size or a position in mm to three places, in inches to four where there is half a thou, or where `places` asks
    for them; `sign`: with its plus."""

    mm: float
    sign: bool = False
    places: int = 3


@dataclass(frozen=True, slots=True)
class InWords:
    """A size in mm as it is said: a fraction of an inch where there is one."""

    mm: float

    def __post_init__(self) -> None:
        _whole(self, "mm")


@dataclass(frozen=True, slots=True)
class Apart:
    """A length set against another [mm], shown to as many places as tell the two apart."""

    mm: float
    other_mm: float
    places: int = 3

    def __post_init__(self) -> None:
        _whole(self, "mm", "other_mm")


@dataclass(frozen=True, slots=True)
class Deg:
    """An angle in degrees, shown as short as it can be."""

    deg: float


@dataclass(frozen=True, slots=True)
class Rpm:
    """Turns in a minute."""

    rpm: float


@dataclass(frozen=True, slots=True)
class Feed:
    """A table feed in mm/min, with the time that it takes, as a hand goes by it."""

    mm_per_min: float


@dataclass(frozen=True, slots=True)
class Rate:
    """A table feed in mm/min alone: inches to a tenth, or whole millimetres."""

    mm_per_min: float


@dataclass(frozen=True, slots=True)
class Handed:
    """A table feed in mm/min as a hand goes by it: the seconds of an inch, or of a centimetre."""

    mm_per_min: float


@dataclass(frozen=True, slots=True)
class Power:
    """Power in watts: horsepower, or kilowatts."""

    watts: float


@dataclass(frozen=True, slots=True)
class Torque:
    """Torque in newton metres: foot pounds in an inch shop, of a tap inch pounds where they are few."""

    newton_metres: float
    of_a_tap: bool = False


@dataclass(frozen=True, slots=True)
class ByUnits:
    """What is said in one way among inches and in another among millimetres: round values that are no conversion of
    each other."""

    inch: Text
    mm: Text


@dataclass(frozen=True, slots=True)
class Sentence:
    """Something said, with a capital and a full stop."""

    text: Fact


@dataclass(frozen=True, slots=True)
class Clause:
    """Something said, without the full stop that it may have."""

    text: Fact


@dataclass(frozen=True, slots=True)
class Head:
    """Something said, up to its first comma."""

    text: Fact


@dataclass(frozen=True, slots=True)
class Message:
    """A template with named holes, and what goes into them. A number fills its hole as the template spells it
    (`{ratio:.1f}`); a quantity as the reader's units ask; a message is worded in its turn."""

    template: str
    facts: tuple[tuple[str, Fact], ...] = ()

    def __format__(self, spec: str) -> str:
        """Raises `TypeError`: a message that slips into a string has no units yet."""
        raise TypeError(f"a message is worded where it is shown: {self.template!r}")


Quantity = Mm | Reading | Measure | InWords | Apart | Deg | Rpm | Feed | Rate | Handed | Power | Torque | ByUnits
"""What is spelt by the reader's units."""

Text = str | Message
"""Something to be said: plain words, or a message."""

Fact = Text | Quantity | Sentence | Clause | Head | int | float


def said(template: str, **facts: Fact) -> Message:
    """A message.

    >>> said("flutes {has}, the hole goes {needs} deep", has=Mm(3.2), needs=Mm(4.0)).facts[0]
    ('has', Mm(mm=3.2, places=3, sign=False, fine=False))
    """
    return Message(template, tuple(facts.items()))


def joined(between: str, texts: Iterable[Fact]) -> Text:
    """Texts or quantities one after the other with something between them.

    >>> joined("; ", ["to order", "by hand"]), joined("; ", ["to order", said("{a} long", a=Mm(2.0))]).template
    ('to order; by hand', '{t0}; {t1}')
    """
    parts = tuple(texts)
    if all(isinstance(part, str) for part in parts):
        return between.join(part for part in parts if isinstance(part, str))
    between = between.replace("{", "{{").replace("}", "}}")
    template = between.join(f"{{t{place}}}" for place in range(len(parts)))
    return Message(template, tuple((f"t{place}", part) for place, part in enumerate(parts)))


_LETTERS = "AEFHILMNORSX"
"""Those whose names begin with a vowel: of drills, of threads."""


def a(word: str) -> str:
    """A word or a size with its article.

    >>> a("slot"), a("undercut"), a("11/64 drill"), a("F drill"), a("110 V motor"), a("#8 drill")
    ('a slot', 'an undercut', 'an 11/64 drill', 'an F drill', 'a 110 V motor', 'a #8 drill')
    """
    return f"{'an' if _begins_with_a_vowel(word) else 'a'} {word}"


def _begins_with_a_vowel(word: str) -> bool:
    """Where it is said: eight, eleven and eighteen too."""
    first, second = word[:1], word[1:2]
    if first.isdigit():
        return first == "8" or (word[:2] in ("11", "18") and not word[2:3].isdigit())
    if first.isupper():
        return first in "AEIO" if second.islower() else first in _LETTERS and not second.isalpha()
    return first != "" and first in "aeiou" and not word.startswith(("one", "us", "uni", "uti"))


def with_articles(template: str, text: str) -> str:
    """A text that a template came to, with the article before a hole as what fills it is said.

    >>> with_articles("for want of a {size} collet", "for want of a 8 mm collet")
    'for want of an 8 mm collet'
    """
    if " a {" not in template and not template.startswith("a {"):
        return text
    words = text.split(" ")
    return " ".join(["an" if word == "a" and _begins_with_a_vowel(after) else word
                     for word, after in zip(words, [*words[1:], ""], strict=True)])


def counted(number: float, word: str) -> str:
    """A number of things.

    >>> counted(1, "pass"), counted(2, "pass"), counted(1.5, "hour")
    ('1 pass', '2 passes', '1.5 hours')
    """
    more = "es" if word.endswith("s") else "s"
    return f"{number:g} {word}{'' if number == 1 else more}"


def filled(text: Text, **facts: Fact) -> Text:
    """A text with holes that are still open, filled; one without any as it is.

    >>> filled("neck {has}", has=Mm(3.0)) == said("neck {has}", has=Mm(3.0)), filled("no neck", has=Mm(3.0))
    (True, 'no neck')
    """
    if isinstance(text, str):
        text = Message(text)
    known = tuple((name, filled(fact, **facts) if isinstance(fact, Message) else fact) for name, fact in text.facts)
    names = dict(known)
    lacking = tuple((name, facts[name]) for name in _holes(text.template) if name in facts and name not in names)
    return Message(text.template, (*known, *lacking)) if known or lacking else text.template


def _holes(template: str) -> list[str]:
    """The names of a template's holes, each once.

    >>> _holes("{ratio:.1f} of {has}, {has} of {needs}")
    ['ratio', 'has', 'needs']
    """
    from string import Formatter  # an answer that is read off needs none

    return list(dict.fromkeys(name for _, name, _, _ in Formatter().parse(template) if name))


def templates(text: Fact) -> str:
    """The words of a text, without what its holes hold but more words.

    >>> templates(said("in the {what}, {far} out", what=said("{kind} chuck", kind="drill"), far=Mm(3.0)))
    'in the {what}, {far} out {kind} chuck drill'
    """
    if isinstance(text, Message):
        return " ".join(filter(None, (text.template, *(templates(fact) for _, fact in text.facts))))
    return text if isinstance(text, str) else ""


def nameless(text: Text, name: str) -> Text:
    """A text in which a name is left out, to tell whether the same is said of two.

    >>> nameless(said("{cutter} is dull", cutter="no. 4"), "no. 4") == said("{cutter} is dull", cutter="")
    True
    """
    if isinstance(text, str):
        return text.replace(name, "")
    bare = ((key, nameless(fact, name) if isinstance(fact, str | Message) else fact) for key, fact in text.facts)
    return Message(text.template, tuple(bare))


def unaddressed(text: Text, name: str) -> Text:
    """A text without the name at its head, and without what parts the two.

    >>> unaddressed("no. 4: too fast", "no. 4")
    'too fast'
    >>> unaddressed(said("{cutter}: too fast", cutter="no. 4"), "no. 4").template
    'too fast'
    """
    if isinstance(text, str):
        return text.removeprefix(name).lstrip(": ")
    heads = (f"{{{key}}}" for key, fact in text.facts if fact == name)
    head = next((one for one in heads if text.template.startswith(one)), "")
    return Message(text.template.removeprefix(head).lstrip(": ") if head else text.template, text.facts)


def apart(one_mm: float, other_mm: float, places: int = 3) -> tuple[Apart, Apart]:
    """Two lengths [mm] that are set against each other."""
    return Apart(one_mm, other_mm, places), Apart(other_mm, one_mm, places)
