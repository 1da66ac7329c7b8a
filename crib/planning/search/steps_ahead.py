"""Which ways of doing flanks are surely ahead of others: they cost less by more than it can be worth that less is said
of the others."""

from __future__ import annotations

from math import inf, prod

from crib.findings.finding import Finding, Grade
from crib.light.records import dataclass, field
from crib.machining.question import Question
from crib.planning.bounds.discs_first import Said
from crib.planning.reckoning.cost import HOURS_THAT_COUNT, chance_of, money_at_stake
from crib.rules.catalogue import ids

EQUAL = 2e-6
"""What costs no more than this beside another costs as much: plans are ranked rounded to the sixth place."""

_OF_VERDICT = frozenset((*ids("gives_up"), *ids("asks")))

_Gist = frozenset[tuple[tuple[str, Grade], int]]


@dataclass
class Ahead:
    """The cheapest ways that are known, by what is said of them and by what holds their first tool; `change`: what it
    costs to change that; `worths`: what it may be worth that less is said."""

    question: Question
    change: float
    known: dict[tuple[_Gist, str], tuple[float, Said]] = field(default_factory=dict)
    worths: dict[tuple[_Gist, _Gist], float] = field(default_factory=dict)

    def add(self, money: float, said: Said, held: str) -> None:
        """One more way."""
        place = (frozenset(said.items()), held)
        known = self.known.get(place)
        if known is None or money < known[0]:
            self.known[place] = money, said

    def of(self, money: float, least: Said, held: str) -> bool:
        """Whether one that is known is ahead of a way that costs so much and of which no less is said than the least,
        whatever is up before; of equals stiffness decides."""
        gist = frozenset(least.items())
        return any(known + self.change * (label != held) + self._worth(said, mine, least, gist) < money - EQUAL
                   for (mine, label), (known, said) in self.known.items())

    def _worth(self, more: Said, mine: _Gist, less: Said, other: _Gist) -> float:
        if (mine, other) not in self.worths:
            self.worths[mine, other] = worth(self.question, more, less)
        return self.worths[mine, other]


def worth(question: Question, more: Said, less: Said) -> float:
    """The most money that it can be worth that less is said of a plan than of another but for that the same: by the
    chance of scrap. Infinite where a plan may come before others for it whatever it costs: where hours are at stake,
    and where it is what forbids a plan, cautions against it or earns it its verdict."""
    shop, hours, beyond = question.shop, question.feature.request.hours, more - less
    if not beyond:
        return 0.0
    cautioned = any(grade == Grade.CAUTION for _, grade in less)
    if hours >= HOURS_THAT_COUNT or any(
            grade == Grade.STOP or rule in _OF_VERDICT or (grade == Grade.CAUTION and not cautioned)
            for rule, grade in beyond):
        return inf
    left = prod((1 - float(getattr(shop, chance_of(Finding(rule, grade, ""))))) ** count
                for (rule, grade), count in beyond.items())
    return money_at_stake(shop, hours) * (1 - shop.base_chance) * (1 - left)
