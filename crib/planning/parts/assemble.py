"""From the choice and the order to the planned part: set-ups and operations with their numbers and minutes."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from crib.planning.parts.abstract import Asked, changed_holders, setup_minutes, touch_minutes
from crib.planning.parts.choices import Choice, Go
from crib.planning.parts.lies import Lie, datum_of
from crib.planning.parts.planned import PartOperation, PartSetup
from crib.planning.parts.problem import Up


class Turn(NamedTuple):
    """A go of a feature in its turn."""

    feature: str
    choice: Choice
    number: int
    done: bool = False

    @property
    def go(self) -> Go:
        """The go."""
        return self.choice.goes[self.number]


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
    stands = f", {lie.stands}" if lie.stands else ""
    return f"{feature} | {lie.face.value} up{stands} | {go.tool.id} | {number + 1} {go.what}"


def laid_out(asked: Asked, turns: Sequence[Turn]) -> Laid:
    """Set-ups and operations of goes in their order. What a change takes stands with what it is made for."""
    setups: list[PartSetup] = []
    operations: list[PartOperation] = []
    now, pace, shop = Up(), asked.shop.pace, asked.shop
    for number, turn in enumerate(turns, start=1):
        up, go = asked.up(turn.feature, turn.choice, turn.go), turn.go
        if up.setup != now.setup:
            setups.append(_setup(asked, turn, len(setups) + 1))
        puts_up = up.cutter != now.cutter
        changes = puts_up and now.cutter is not None and now.cutter.holder != up.cutter.holder
        extra = shop.cutter_minutes * puts_up + shop.collet_minutes * changes
        extra += touch_minutes(go) if up != now else 0.0
        plan = turn.choice.proved.plan
        operations.append(PartOperation(
            no=number,
            key=key_of(turn.feature, asked.lie(turn.feature, turn.choice), go, turn.number),
            feature=turn.feature,
            setup_no=len(setups),
            cutter=go.tool.owned,
            holder=go.tool.held.label,
            passes=plan.passes[go.passes.start:go.passes.stop],
            minutes=go.minutes + extra * pace,
            proved=turn.choice.proved,
            puts_up=puts_up,
            changes_holder=changes or now.cutter is None,
            done=turn.done,
        ))
        now = up
    return Laid(tuple(setups), tuple(operations))


def _setup(asked: Asked, turn: Turn, number: int) -> PartSetup:
    lie, plan = asked.lie(turn.feature, turn.choice), turn.choice.proved.plan
    return PartSetup(number, lie.face, lie.words, plan.hold, datum_of(asked.part, lie),
                     setup_minutes(asked.shop, lie) * asked.shop.pace, plan)


def changes_of(laid: Laid) -> tuple[int, int, int]:
    """How often it is set up, how often another holder goes in, and how often a cutter is put up."""
    ops = laid.operations
    holders = sum(a.holder != b.holder for a, b in pairwise(ops))
    return len(laid.setups), holders, sum(one.puts_up for one in ops)


def alone(choices: Sequence[Sequence[Choice]]) -> tuple[int, int, int, float]:
    """The same where each feature is made by itself, one after the other, and the minutes that it takes."""
    best = [min(some, key=lambda one: one.weighed.key) for some in choices]
    between = sum(a.holders[-1] != b.holders[0] for a, b in pairwise(best))
    setups = sum(1 + one.draft.question.setup.clampings for one in best)
    return (setups, sum(map(changed_holders, best)) + between, sum(len(one.goes) for one in best),
            sum(one.proved.plan.minutes for one in best))

