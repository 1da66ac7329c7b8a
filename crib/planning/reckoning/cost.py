"""What a plan costs, as named lines: its minutes, the chance of spoiling the part, wear, all at the shop's own rate.

Shares and chances are common practice, from memory, and every one is a setting of the shop.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import prod

from crib.findings.finding import Finding, Grade
from crib.handbook.materials import Material
from crib.light.records import dataclass
from crib.machining.draft import Draft
from crib.machining.tool import Tool
from crib.machining.words import LEANING, Manner
from crib.planning.reckoning.minutes import Timed
from crib.planning.told.advice import CostLine
from crib.rules.catalogue import RULES
from crib.shop import Shop

SCRAP, WEAR = "chance of scrap", "wear"

_CHANCE = {Grade.NOTE: "", Grade.WARN: "warn_chance", Grade.CAUTION: "caution_chance"}
_CHANCE_OF = {(rule.id, Grade.WARN): rule.chance for rule in RULES if rule.chance}
_WORK_HARDENING = ("stainless 304/316", "titanium 6Al-4V")

HOURS_THAT_COUNT = 4
"""From so many hours in the part on, the chance of spoiling it comes before the cost."""


@dataclass(frozen=True)
class Reckoning:
    """The lines, largest first, and what they come to: minutes, money, chance of scrap."""

    lines: tuple[CostLine, ...]
    minutes: float
    cost: float
    scrap: float


def scrap_chance(warnings: Sequence[Finding], misses: int = 0, shop: Shop | None = None) -> float:
    """The chance of spoiling the part: one less the product of what each warning, and each size that is missed, leaves.

    >>> round(scrap_chance([Finding(rule, Grade.WARN, "") for rule in "abc"]), 3)
    0.039
    """
    shop = shop or Shop()
    left = prod(1 - getattr(shop, name) for name in map(chance_of, warnings) if name)
    stopped = any(warning.grade == Grade.STOP for warning in warnings)
    return 1.0 if stopped else 1 - (1 - shop.base_chance) * left * (1 - shop.miss_chance) ** misses


def scrap_class(scrap: float, hours: float) -> float:
    """The chance of scrap as the ranking goes by it: in steps of .02 where hours are at stake, else not at all.

    >>> scrap_class(0.069, 6.0), scrap_class(0.069, 3.0)
    (0.06, 0.0)
    """
    return round(scrap / 0.02) * 0.02 if hours >= HOURS_THAT_COUNT else 0.0


def chance_of(warning: Finding) -> str:
    """The setting that says what a warning adds to the chance of scrap; empty for a mere note and for a stop.

    >>> chance_of(Finding("G12", Grade.WARN, "")), chance_of(Finding("CH1", Grade.CAUTION, ""))
    ('careful_chance', 'caution_chance')
    """
    return _CHANCE_OF.get((warning.id, warning.grade), _CHANCE.get(warning.grade, ""))


def reckon(draft: Draft, warnings: Sequence[Finding], misses: int, timed: Sequence[Timed]) -> Reckoning:
    """What a draft costs with all that the rules say of it, the number of sizes that it misses, and the minutes that it
    takes."""
    shop, request = draft.question.shop, draft.question.feature.request
    scrap = scrap_chance(warnings, misses, shop)
    lines = [scrap_line(scrap, warnings, misses, shop, request.hours), *_wear(draft)]
    return summed(timed, lines, scrap, shop)


def summed(timed: Sequence[Timed], others: Sequence[CostLine], scrap: float, shop: Shop) -> Reckoning:
    """Minutes turned to money at the pace of the shop, the other lines, all of them largest first."""
    lines = [_line(one, shop) for one in timed]
    kept = sorted((line for line in (*lines, *others) if line.minutes or line.money), key=lambda line: -line.money)
    return Reckoning(tuple(kept), sum(line.minutes for line in lines), sum(line.money for line in kept), scrap)


def _line(one: Timed, shop: Shop) -> CostLine:
    pace = shop.pace
    why = one.why + (f"; {pace:.2f} times that by your own times" if pace != 1 else "")
    return CostLine(one.what, one.minutes * pace, one.minutes / 60 * shop.hour_rate, why, (*one.settings, "hour_rate"))


def money_at_stake(shop: Shop, hours: float) -> float:
    """What is lost with a part: the hours in it at the shop's rate, and its blank."""
    return shop.real_hour * hours + shop.blank_cost


def scrap_line(scrap: float, warnings: Sequence[Finding], misses: int, shop: Shop, hours: float) -> CostLine:
    """The chance of scrap times what is in the part: the hours in it at the shop's rate, and its blank."""
    at_stake = money_at_stake(shop, hours)
    counted = Counter(("base_chance", *filter(None, map(chance_of, warnings)), *("miss_chance",) * misses))
    parts = ", ".join((f"{count} x " if count > 1 else "") + f"{name.removesuffix('_chance')} {getattr(shop, name):g}"
                      for name, count in counted.items())
    why = f"{scrap:.3f} of {at_stake:.2f} in the part and its blank: {parts}"
    return CostLine(SCRAP, 0.0, scrap * at_stake, why, (*counted, "hour_rate", "blank_cost"))


def wear_line(label: str, price: float, share: str, shop: Shop, why: str = "") -> CostLine:
    """What a piece of work takes off a cutter of a price, by the setting that names the share."""
    part: float = getattr(shop, share)
    return CostLine(WEAR, 0.0, part * price, f"{part:.1%} of {label}{why}", (share,))


def wear_share(buried: bool, material: Material) -> tuple[str, str]:
    """The setting for the share of its price that a cutter loses to a piece of work, and why where it is the hardest.

    >>> from crib.handbook.materials import find_material
    >>> wear_share(True, find_material("grey iron"))
    ('buried_wear', '')
    """
    if material.name in _WORK_HARDENING:
        return "hard_wear", ", work-hardening metal"
    return ("buried_wear" if buried else "easy_wear"), ""


def is_spared(draft: Draft, tool: Tool) -> bool:
    """Whether a tool only ends flanks under which another took steps first."""
    begun = {job.room for job in draft.jobs if job.manner == Manner.STEPS_FIRST}
    mine = [job for job in draft.jobs if job.tool.id == tool.id]
    return bool(begun) and all(job.manner in LEANING and job.room in begun for job in mine)


def _wear(draft: Draft) -> Iterator[CostLine]:
    for tool in draft.tools:
        if tool.owned.price:
            spared = is_spared(draft, tool)
            share, why = wear_share(tool.kind.buried and not spared, draft.question.material)
            why += ", most of the metal taken before it" if spared else ""
            yield wear_line(tool.owned.label, tool.owned.price, share, draft.question.shop, why)
