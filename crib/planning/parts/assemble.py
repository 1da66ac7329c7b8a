"""From the choice and the order to the planned part: set-ups and operations with their numbers and minutes."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, takewhile

from crib.findings.message import Message, Text
from crib.light.tuples import NamedTuple
from crib.planning.parts.abstract import Asked, Way, changed_holders, setup_minutes, touch_minutes
from crib.planning.parts.choices import Choice, Go
from crib.planning.parts.lies import Lie, datum_of
from crib.planning.parts.planned import PartOperation, PartSetup
from crib.planning.parts.problem import Up
from crib.shop import Shop


class Turn(NamedTuple):
    """A go of a feature in its turn."""

    feature: str
    way: Way
    number: int
    done: bool = False

    @property
    def choice(self) -> Choice:
        """The way to make the feature."""
        return self.way.choice

    @property
    def go(self) -> Go:
        """The go."""
        return self.choice.goes[self.number]

    @property
    def up(self) -> Up:
        """What it needs to be up."""
        return self.way.up(self.go)

    @property
    def key(self) -> str:
        """What it is known by, whenever the part is planned again."""
        return key_of(self.feature, self.way.lie, self.go, self.number)


class Laid(NamedTuple):
    """Set-ups and operations in order."""

    setups: tuple[PartSetup, ...]
    operations: tuple[PartOperation, ...]

    @property
    def minutes(self) -> float:
        """All of it."""
        return sum(one.minutes for one in self.setups) + sum(one.minutes for one in self.operations)


def key_of(feature: str, lie: Lie, go: Go, number: int) -> str:
    """What an operation is known by, whenever the part is planned again."""
    return f"{feature} | {lie.name} | {go.tool.id} | {number + 1} {go.what}"


def laid_out(asked: Asked, turns: Sequence[Turn]) -> Laid:
    """Set-ups and operations of goes in their order. What a change takes stands with what it is made for."""
    setups: list[PartSetup] = []
    operations: list[PartOperation] = []
    now, pace, shop = Up(), asked.shop.pace, asked.shop
    for number, turn in enumerate(turns, start=1):
        up, go = turn.up, turn.go
        if up.setup != now.setup:
            here = [*takewhile(lambda other, lie=up.setup: other.way.lie == lie, turns[number - 1:])]  # type: ignore[misc]
            setups.append(_setup(asked, here, len(setups) + 1))
        puts_up = up.cutter != now.cutter
        changes = puts_up and now.cutter is not None and now.cutter.holder != up.cutter.holder
        extra = shop.cutter_minutes * puts_up + shop.collet_minutes * changes
        extra += touch_minutes(go) if up != now else 0.0
        plan = turn.choice.proof.plan
        operations.append(PartOperation(
            no=number,
            key=turn.key,
            feature=turn.feature,
            setup_no=len(setups),
            cutter=go.tool.owned,
            holder=go.tool.held.label,
            passes=plan.passes[turn.choice.passes(turn.number)],
            minutes=go.minutes + extra * pace,
            proved=turn.choice.proof,
            puts_up=puts_up,
            changes_holder=changes or now.cutter is None,
            done=turn.done,
        ))
        now = up
    return Laid(tuple(setups), tuple(operations))


def _setup(asked: Asked, turns: Sequence[Turn], number: int) -> PartSetup:
    """A set-up for some goes, held as most of their features ask."""
    lie = turns[0].way.lie
    plans = [turn.choice.proof.plan for turn in {turn.feature: turn for turn in turns}.values()]
    holds = [plan.hold for plan in plans]
    plan = max(plans, key=lambda one: holds.count(one.hold))
    return PartSetup(number, lie.face, lie.words, _toward_you(plan.hold), datum_of(asked.part, lie.face),
                     setup_minutes(asked.shop, lie) * asked.shop.pace, plan, lie.runs, lie.turned,
                     lie.stands)


def _toward_you(hold: Text) -> Text:
    """How the work is held, by where a face lies: that toward you isn't the part's front where it is turned over."""
    if isinstance(hold, Message):
        return Message(hold.template.replace("its front face", "the face toward you"), hold.facts)
    return hold.replace("its front face", "the face toward you")


def changes_of(laid: Laid) -> tuple[int, int, int]:
    """How often it is set up, how often another holder goes in, and how often a cutter is put up."""
    ops = laid.operations
    holders = sum(a.holder != b.holder for a, b in pairwise(ops))
    return len(laid.setups), holders, sum(one.puts_up for one in ops)


def alone(choices: Sequence[Sequence[Choice]], shop: Shop) -> tuple[int, int, int, float]:
    """The same where each feature is made by itself, one after the other, and the minutes that it takes, those to put
    another holder in between two of them too."""
    best = [min(some, key=lambda one: one.weighed.key) for some in choices]
    between = sum(a.holders[-1] != b.holders[0] for a, b in pairwise(best))
    setups = sum(1 + one.draft.question.setup.clampings for one in best)
    return (setups, sum(map(changed_holders, best)) + between, sum(len(one.goes) for one in best),
            sum(one.weighed.reckoning.minutes for one in best) + between * shop.collet_minutes * shop.pace)

