"""Why a plan is the best: what was reckoned and taken for granted, and its whole cost, every line with why it is there
and the settings of the shop behind it."""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.message import Fact, Sentence
from crib.pages.blocks import Block, Fit, Heading, Paragraph, table
from crib.pages.outcome import assumed, figures
from crib.planning.told.advice import Advice, Plan
from crib.rules.catalogue import BY_ID
from crib.rules.overruling import OWNERS
from crib.shop import Shop

_SCRAP = "chance of scrap"
_COST_LINES = 5


def why(advice: Advice, plan: Plan, shop: Shop | None) -> list[Sequence[Block]]:
    """Figures, what was assumed, minutes and money; with the shop every line of the cost, largest first."""
    told: list[Block] = [Paragraph(Sentence(plan.way), "Way", hang=2), *figures(plan),
                         *assumed((*advice.assumed, *plan.assumed))]
    if shop is None:
        return [[*told, Paragraph(_sum(plan), "Cost", hang=2)]]
    ranked = sorted(plan.cost_lines, key=lambda line: (-line.money, -line.minutes, line.what))
    rows: list[tuple[Fact, ...]] = [
        (line.what, f"{line.minutes:.1f}" if line.minutes else "", f"{line.money:.2f}", line.why) for line in ranked]
    rows.append(("sum", f"{plan.minutes:.1f}", f"{plan.cost:.2f}", ""))
    lines = table(("line", "min", plan.currency, "why"), rows, Fit.WRAP, 2, frozenset({1, 2}))
    return [told, [Heading("Why it costs that"), lines, *_settings(plan, shop), *_trial(plan, shop)], _rules(plan)]


def _rules(plan: Plan) -> list[Block]:
    """The rules behind what is said of a plan, by their ids: those that are the owner's, he may overrule."""
    spoke = list(dict.fromkeys(one.id for one in plan.warnings))
    owners = [one for one in spoke if one in OWNERS]
    rows = [(one, BY_ID[one].check, "yours to overrule" if one in OWNERS else "stands") for one in spoke]
    if not rows:
        return []
    shown = table(("rule", "what should hold", ""), rows, Fit.WRAP, 1)
    told: list[Block] = [Heading("Rules behind the remarks"), shown]
    if owners:
        told.append(Paragraph(f"Where you know better: --overrule \"{owners[0]} and your words\" for this question, "
                              "crib shop --overruled for the shop, crib amend NUMBER --overruled for one cutter.",
                              hang=2))
    return told


def _sum(plan: Plan) -> str:
    """The sum, then its lines, the largest first."""
    ranked = sorted(plan.cost_lines, key=lambda line: (-line.money, -line.minutes, line.what))
    parts = [f"{one.what} {one.minutes:.0f} min" if one.minutes else f"{one.what} {one.money:.2f}" for one in ranked]
    rest = [f"{len(parts) - _COST_LINES} smaller"] if len(parts) > _COST_LINES else []
    detail = ", ".join([*parts[:_COST_LINES], *rest])
    return f"{plan.minutes:.0f} min, {plan.cost:.2f} {plan.currency}" + (f": {detail}." if detail else ".")


def _settings(plan: Plan, shop: Shop) -> list[Block]:
    """Each setting that a line hangs on, once, with what it is."""
    names = dict.fromkeys(name for line in plan.cost_lines for name in line.settings)
    worth = {"hour_rate": shop.real_hour}
    told = [f"{name.replace('_', '-')} {worth.get(name, getattr(shop, name)):g}" for name in names]
    text = ", ".join(told) + " (crib shop --weights tells what each means)."
    return [Paragraph(text, "Settings behind it", hang=2)] if told else []


def _trial(plan: Plan, shop: Shop) -> list[Block]:
    """Whether a trial cut in scrap pays: it halves the chance of scrap."""
    saved = sum(line.money for line in plan.cost_lines if line.what == _SCRAP) / 2
    costs = shop.trial_minutes / 60 * shop.hour_rate
    if saved <= costs:
        return []
    return [Paragraph(f"A trial cut in scrap first, {shop.trial_minutes:g} min or {costs:.2f}, would halve the chance "
                      f"of scrap and save {saved:.2f}: it pays.", hang=2)]
