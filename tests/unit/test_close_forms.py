"""Angles and radii closer than a cutter is ground, a protractor is read or a gauge tells."""

from __future__ import annotations

from math import radians

import pytest

from crib.planning.told.advice import Plan
from tests.published.test_every_deviation import BALL, DOVETAIL, POCKET, POINT, ROUNDER, TAIL, ask, mill, some
from tests.spelt import spelt

IN = 25.4
ROUNDS = [
    ("corner-round", (ROUNDER,), {"radius": ".125{}", "length": "3"}),
    ("inside-fillet", (BALL,), {"radius": ".125{}", "length": "3"}),
    ("round-groove", (BALL,), {"radius": ".125{}", "length": "3"}),
    ("pocket", (mill(0.375),), POCKET | {"corner_radius": ".1875{}"}),
]
ANGLES = [
    ("dovetail", (mill(0.5), some("dovetail-cutter", 0.75, angle_deg=60.0, **TAIL)), DOVETAIL | {"angle": "60{}"},
     "proved against a sine bar", 0.3),
    ("bevel", (mill(0.5),), {"width": ".25", "angle": "30{}", "length": "3"}, "tilted on a sine bar", None),
    ("chamfer", (POINT,), {"size": "1/16", "angle": "45{}", "length": "3"}, "proved against a sine bar", 0.0625),
]


def best(kind: str, cutters: tuple, texts: dict[str, str], band: str) -> Plan:  # type: ignore[type-arg]
    found: Plan = ask(kind, *cutters, **{key: text.format(band) for key, text in texts.items()}).plans[0]
    return found


@pytest.mark.parametrize(("kind", "cutters", "texts"), ROUNDS, ids=[one[0] for one in ROUNDS])
@pytest.mark.parametrize(("band", "told"), [("+.001-.001", ""), ("+.0007-.0007", "care"), ("+.001-0", "care"),
                                            ("+.0003-.0003", "beyond")])
def test_a_radius_is_as_round_as_its_cutter(kind: str, cutters: tuple, texts: dict[str, str],  # type: ignore[type-arg]
                                            band: str, told: str) -> None:
    """To a thou each way as cutters are ground, to half of that with one that was tried (from memory). A radius to
    three tenths was said to come out as drawn."""
    plan = best(kind, cutters, texts, band)
    assert ("with care only: it is as round as its cutter" in " ".join(spelt(one.says) for one in plan.warnings)) == (
        told == "care")
    beyond = [one.has_mm / IN for one in plan.deviations if "as round as its cutter" in spelt(one.says)]
    assert beyond == ([pytest.approx(0.0005 - 0.0003)] if told == "beyond" else [])
    assert (plan.answer == "compromise") == (told == "beyond")


@pytest.mark.parametrize(("kind", "cutters", "texts", "says", "tall"), ANGLES, ids=[one[0] for one in ANGLES])
@pytest.mark.parametrize(("band", "told"), [("", ""), ("±.25", ""), ("±.1", "care"), ("±.02", "care"),
                                            ("±.01", "beyond")])
def test_an_angle_is_held_by_a_sine_bar_at_the_best(
        kind: str, cutters: tuple, texts: dict[str, str], says: str,  # type: ignore[type-arg]
        tall: float | None, band: str, told: str) -> None:
    """A quarter of a degree by protractor and as cutters are ground, a fiftieth by sine bar (common practice); over the
    height a hundredth more is that much times the height (geometry). It was said to come out as drawn to any band."""
    plan = best(kind, cutters, texts, band)
    assert any(says in spelt(one.says) for one in plan.warnings if one.id == "G12") == (told == "care")
    beyond = [one.has_mm / IN for one in plan.deviations if "holds an angle" in spelt(one.says)]
    assert bool(beyond) == (told == "beyond") == (plan.answer == "compromise")
    if beyond and tall:
        assert beyond[0] == pytest.approx(radians(0.01) * tall, rel=0.05)
