"""Plain questions as a bench has them, of the kinds that a large crib is timed with: sizes that there are cutters for,
metals, now and then hours at stake. The same number gives the same questions."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from random import Random

from tests.benchmarks.any_question import BANDS, METALS


def length(random: Random, low: float, high: float) -> str:
    """A fraction of an inch as a decimal, or any size, with some tolerance."""
    sizes = (round(random.uniform(low, high) * 64) / 64, round(random.uniform(low, high), 4))
    return f"{random.choice(sizes):.4f}{random.choice(BANDS)}"


def _t_slot(random: Random) -> list[str]:
    if random.random() < 0.4:
        return ["--bolt", random.choice(("1/4", "3/8", "1/2", "5/8", "3/4", "M8", "M10", "M12", "M16"))]
    throat, height = random.uniform(0.2, 0.9), random.uniform(0.1, 0.4)
    return ["--throat", f"{throat:.4f}", "--depth", f"{height + random.uniform(0.15, 0.7):.4f}", "--head-width",
            f"{throat + random.uniform(0.15, 0.7):.4f}", "--head-height", f"{height:.4f}"]


def _of(**ranges: tuple[float, float]) -> Callable[[Random], list[str]]:
    return lambda random: [word for key, between in ranges.items() for word in (f"--{key}", length(random, *between))]


def _slanted(**ranges: tuple[float, float]) -> Callable[[Random], list[str]]:
    return lambda random: ["--angle", random.choice(("60", "45", "55")), *_of(**ranges)(random)]


SIZES: dict[str, Callable[[Random], list[str]]] = {
    "t-slot": _t_slot,
    "slot": _of(width=(0.15, 1.5), depth=(0.1, 1.2)),
    "step": _of(width=(0.2, 4.0), depth=(0.1, 1.0)),
    "slit": _of(width=(0.03, 0.25), depth=(0.1, 1.0)),
    "chamfer": lambda random: ["--size", f"{random.uniform(0.02, 0.2):.4f}"],
    "dovetail": _slanted(depth=(0.1, 0.4), width=(0.8, 2.5)),
    "dovetail-slide": _slanted(height=(0.1, 0.4), width=(0.8, 2.0)),
}

OTHERS: dict[str, Callable[[Random], list[str]]] = {
    "hole": lambda random: [*_of(diameter=(0.1, 0.75), depth=(0.2, 1.0))(random),
                            *random.choice(([], [], ["--finish", "reamed"], ["--finish", "bored"]))],
    "counterbore": lambda random: [*_of(diameter=(0.3, 1.0), depth=(0.1, 0.5))(random), "--hole",
                                   f"{random.uniform(0.1, 0.25):.4f}"],
    "flat-bottomed-hole": _of(diameter=(0.15, 0.75), depth=(0.2, 0.6)),
    "keyseat": lambda random: [*_of(width=(0.1, 0.4), depth=(0.06, 0.2))(random), "--shaft",
                               random.choice(("3/4", "1", "1-1/2", "2"))],
    "pocket": lambda random: [*_of(width=(0.6, 1.5), length=(1.0, 3.0), depth=(0.1, 0.5))(random), "--corner-radius",
                              f"{random.uniform(0.1, 0.3):.4f}"],
    "inside-fillet": _of(radius=(0.06, 0.25), width=(0.5, 1.5), depth=(0.3, 0.6)),
}
"""Kinds that large cribs are timed with besides: down an axis, with round corners, and others."""


def plain_questions(kind: str, is_closed: bool, seed: int = 7) -> Iterator[tuple[str, ...]]:
    """The words of questions of a kind, without end."""
    random = Random(seed)
    while True:
        words = [kind, *(SIZES | OTHERS)[kind](random)]
        if is_closed:
            words += ["--ends", "closed", "--length", f"{random.uniform(1, 8):.4f}"]
        if random.random() < 0.7:
            words += ["--material", random.choice(METALS)]
        if random.random() < 0.2:
            words += ["--hours", str(random.choice((1, 4, 10)))]
        yield tuple(words)
