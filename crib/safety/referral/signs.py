"""The shape of what refers: signs, sorted by topic, with the company that makes or unmakes them."""

from __future__ import annotations

from crib.light.records import dataclass
from crib.safety.referral.reading import RuleEffects


@dataclass(frozen=True)
class Words:
    """A set of words; one that ends in a star stands for all that begin so."""

    whole: frozenset[str]
    begun: tuple[str, ...]

    def are_in(self, said: RuleEffects) -> bool:
        """Whether one of them was said."""
        return not self.whole.isdisjoint(said.words) or any(
            word.startswith(self.begun) for word in said.words if self.begun)


def words(text: str) -> Words:
    """The words of a list as it is written down.

    >>> words("crane hoist*").begun, sorted(words("crane hoist*").whole)
    (('hoist',), ['crane'])
    """
    every = text.split()
    if "*" not in text:
        return Words(frozenset(every), ())
    return Words(frozenset([word for word in every if word[-1] != "*"]),
                 tuple([word[:-1] for word in every if word[-1] == "*"]))


@dataclass(frozen=True)
class Sign:
    """Words that refer: in the company of `beside` where there is any, and not in that of `unless`. `spelt`: also with
    a letter wrong or spelt by ear."""

    says: Words
    beside: Words | None = None
    unless: Words | None = None
    spelt: bool = False

    def is_in(self, said: RuleEffects) -> bool:
        """Whether it was said, in its company and in none that makes it harmless."""
        return (self.says.are_in(said) and (self.beside is None or self.beside.are_in(said))
                and (self.unless is None or not self.unless.are_in(said)))


@dataclass(frozen=True)
class Topic:
    """What is referred for one reason; not where `unless` is said and nothing of `despite`."""

    name: str
    signs: tuple[Sign, ...]
    unless: Words = Words(frozenset(), ())
    despite: Words = Words(frozenset(), ())

    def is_in(self, said: RuleEffects) -> bool:
        """Whether one of its signs was said, in its company."""
        if self.unless.are_in(said) and not self.despite.are_in(said):
            return False
        return any(sign.is_in(said) for sign in self.signs)


def alone(text: str) -> Sign:
    """Words that refer by themselves, whatever stands beside them, misspelt ones too."""
    return Sign(words(text), spelt=True)


def loan(text: str) -> Sign:
    """Words of other languages that refer by themselves, as they are spelt there, accents aside."""
    return Sign(words(text))


def weak(text: str, unless: str, spelt: bool = False) -> Sign:
    """Words that refer unless the company makes them harmless."""
    return Sign(words(text), unless=words(unless), spelt=spelt)


def pair(text: str, beside: str, unless: str = "") -> Sign:
    """Words that refer together with others, in whatever order and however far apart."""
    return Sign(words(text), words(beside), words(unless) if unless else None)
