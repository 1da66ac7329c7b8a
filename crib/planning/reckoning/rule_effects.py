"""What the rules say of a tool that is put to work, whatever its passes, and what that leaves of the chance that the
part comes out well."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property
from math import prod

from crib.findings.finding import Finding
from crib.geometry.region import NOTHING
from crib.light.records import dataclass, field
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Cut, Job
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner, Role, Side
from crib.planning.reckoning.cost import chance_of
from crib.rules import judge

BOTH = Cut(0, 0, Role.ROUGH, "", Side.BOTH, 0, 0)
"""For the rules that speak of any pass that cuts both walls at once."""


@dataclass
class RuleEffects:
    """For each of some tools what the rules leave of the chance for what they say of it by its name, and what else they
    say; `both`: those of which some pass surely cuts both walls at once; `known`: of others, what is known
    of them."""

    question: Question
    tools: dict[int, Tool]
    both: frozenset[int]
    known: Mapping[int, tuple[float, frozenset[Finding]]] = field(default_factory=dict)
    leaves: dict[frozenset[Finding], float] = field(default_factory=dict)

    @cached_property
    def of(self) -> dict[int, tuple[float, frozenset[Finding]]]:
        """By tool: the chance left by what is said of it alone, and what is said of all like it."""
        same = {shared: shared for _, shared in self.known.values()}
        found = dict(self.known)
        for number, tool in self.tools.items():
            own, shared = self._of(tool)
            found[number] = own, same.setdefault(shared, shared)  # sets that are one are found by that
        return found

    def of_those(self, tools: Iterable[int], both: frozenset[int]) -> dict[int, tuple[float, frozenset[Finding]]]:
        """What is known of some tools, by their numbers, of those of which as much is sure."""
        return {number: self.of[number] for number in tools
                if number in self.tools and (number in both) == (number in self.both)}

    def _of(self, tool: Tool) -> tuple[float, frozenset[Finding]]:
        cuts = (BOTH,) if tool.id in self.both else ()
        said = [warning for warning in judge(Draft(self.question, (Job(tool, "", cuts, NOTHING, Manner.IDLE),)))
                if chance_of(warning)]
        shared = frozenset(warning for warning in said if warning.cutter_id is None)
        return self._product(warning for warning in said if warning.cutter_id is not None), shared

    @cached_property
    def shared(self) -> frozenset[Finding]:
        """All that is said of many tools alike."""
        return frozenset(warning for _, shared in self.of.values() for warning in shared)

    def left_by(self, tool: Tool, said: frozenset[Finding]) -> float:
        """What a tool leaves of the chance, where so much was said already."""
        own, shared = self.of.get(tool.id, (1.0, frozenset()))
        return own * self.left_of(shared - said)

    def left_of(self, warnings: frozenset[Finding]) -> float:
        """What warnings leave of the chance."""
        if warnings not in self.leaves:
            self.leaves[warnings] = self._product(warnings)
        return self.leaves[warnings]

    def _product(self, warnings: Iterable[Finding]) -> float:
        """In an order of its own: a set's goes by chance, and rounding by the order."""
        return prod(sorted(1 - float(getattr(self.question.shop, chance_of(warning))) for warning in warnings))
