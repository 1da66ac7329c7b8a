"""The whole cost of a plan: every line, why it is there, and the settings of the shop behind it."""

from __future__ import annotations

from crib.pages.text import columns, paragraph
from crib.planning.advice import Plan
from crib.render.words import words
from crib.shop import Shop

_SCRAP = "chance of scrap"


def why_lines(plan: Plan, shop: Shop, width: int = 100) -> list[str]:
    """The lines, largest first, as many as there are, at most `width` characters wide."""
    ranked = sorted(plan.cost_lines, key=lambda line: (-line.money, -line.minutes, line.what))
    rows = [("  line", "min", plan.currency, "why"), *(
        (f"  {line.what}", f"{line.minutes:.1f}" if line.minutes else "", f"{line.money:.2f}",
         words(line.why, shop.units))
        for line in ranked)]
    rows.append(("  sum", f"{plan.minutes:.1f}", f"{plan.cost:.2f}", ""))
    lines = columns(rows, frozenset({1, 2}))
    if any(len(line) > width for line in lines):
        lines = [part for line in lines for part in paragraph(line.strip(), width, "  ", 4)]
    return ["", "Why it costs that", *lines, *_settings(plan, shop, width), *_trial(plan, shop, width)]


def _settings(plan: Plan, shop: Shop, width: int) -> list[str]:
    """Each setting that a line hangs on, once, with what it is."""
    names = dict.fromkeys(name for line in plan.cost_lines for name in line.settings)
    worth = {"hour_rate": shop.real_hour}
    said = [f"{name.replace('_', '-')} {worth.get(name, getattr(shop, name)):g}" for name in names]
    text = ", ".join(said) + " (crib shop --weights tells what each means)."
    return paragraph(text, width, "Settings behind it: ", 2) if said else []


def _trial(plan: Plan, shop: Shop, width: int) -> list[str]:
    """Whether a trial cut in scrap pays: it halves the chance of scrap."""
    saved = sum(line.money for line in plan.cost_lines if line.what == _SCRAP) / 2
    costs = shop.trial_minutes / 60 * shop.hour_rate
    if saved <= costs:
        return []
    text = (f"A trial cut in scrap first, {shop.trial_minutes:g} min or {costs:.2f}, would halve the chance of scrap "
            f"and save {saved:.2f}: it pays.")
    return paragraph(text, width, "", 2)
