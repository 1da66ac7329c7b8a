"""The whole cost of a plan: every line, why it is there, and the settings of the shop behind it."""

from __future__ import annotations

from crib.findings.message import Fact
from crib.pages.blocks import Block, Blocks, Fit, Heading, Paragraph, Spacer, table
from crib.planning.advice import Plan
from crib.shop import Shop

_SCRAP = "chance of scrap"


def why(plan: Plan, shop: Shop) -> Blocks:
    """The lines, largest first, as many as there are."""
    ranked = sorted(plan.cost_lines, key=lambda line: (-line.money, -line.minutes, line.what))
    rows: list[tuple[Fact, ...]] = [
        (line.what, f"{line.minutes:.1f}" if line.minutes else "", f"{line.money:.2f}", line.why) for line in ranked]
    rows.append(("sum", f"{plan.minutes:.1f}", f"{plan.cost:.2f}", ""))
    lines = table(("line", "min", plan.currency, "why"), rows, Fit.WRAP, 2, frozenset({1, 2}))
    return Spacer(), Heading("Why it costs that"), lines, *_settings(plan, shop), *_trial(plan, shop)


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
