"""Random questions of every kind that is registered, made of its own example and of what its file says that it takes:
a new kind is in them without another line."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from crib.features import KINDS, draw
from crib.features.base import FeatureKind
from crib.features.request import Spoken
from crib.findings.errors import CribError
from crib.handbook.sizes import read_size
from crib.planning.ask import read_request, texts_of
from crib.shop import Shop

INCH, RELAX = 25.4, "--relax"
FLAGS = ("--through",)
"""Options that say yes by being there."""

METALS = ("mild steel", "grey iron", "brass", "bronze", "6061", "304", "4140", "tool steel")
BANDS = ("", "", "", "+.001-0", "+.002-0", "+.005-0", "+.02-0", "\u00b1.0005", "\u00b1.003")
SCREWS = ("#8", "#10", "1/4", "5/16", "3/8", "M5", "M6", "M8")
SPOKEN = {
    "bolt": ("1/4", "3/8", "1/2", "5/8", "3/4", "M8", "M10", "M12", "M16"), "screw": SCREWS,
    "shaft": ("1/2", "3/4", "1", "1-1/2", "20mm"), "key": ("404", "606", "807"), "through": ("yes",),
    "thread": ("1/4-20", "10-32", "M6", "3/8-16", "1/4-28"), "run_out": ("yes",), "angle": ("45", "55", "60"),
    "number": ("2", "3", "4", "6"), "start": ("0", "30"), "class": ("2B", "3B"),
}
"""What is said to options that take words; one that isn't here says in its own file what it takes, or isn't said."""


def any_question(random: Random, kind: str) -> tuple[str, ...]:
    """The words of a question of a kind that can be drawn, a fifth of them with what changes would do."""
    spread = 1.0
    while True:
        try:
            words = (kind, *_words(random, KINDS[kind], spread))
            draw(read_request(words[0], texts_of(words[1:]), Shop(), "in"))
        except CribError:
            spread *= 0.97
            continue
        return (*words, RELAX) if random.random() < 0.2 else words


def questions(random: Random, count: int, kind: str | None = None) -> Iterator[tuple[str, ...]]:
    """So many of a kind, or of each kind as many as of any other."""
    kinds = [kind] if kind else sorted(KINDS)
    for number in range(count):
        yield any_question(random, kinds[number % len(kinds)])


def _words(random: Random, kind: FeatureKind, spread: float) -> Iterator[str]:
    """Options and their values; sizes up to four times as large or small as the example's, times `spread`."""
    texts = dict(_standard(random, kind)) or dict(_sizes(random, kind, spread))
    texts |= _told(random, kind) | _angles(random, kind)
    if "length" not in texts:
        texts |= {"ends": random.choice(kind.ends), "length": f"{random.uniform(0.8, 8):.4f}"}
    for key, value in (texts | dict(_beside(random))).items():
        yield from (f"--{key.replace('_', '-')}", value)


def _standard(random: Random, kind: FeatureKind) -> Iterator[tuple[str, str]]:
    """Now and then the sizes of a standard, and those of its example that it doesn't give."""
    known = [one.key for one in kind.standards if one.key in SPOKEN]
    if known and random.random() < 0.3:
        key = random.choice(known)
        text = random.choice(SPOKEN[key])
        standard = next(one for one in kind.standards if one.key == key)
        gives, _ = standard.sizes(Spoken(text, {}))
        yield key, text
        for size in (one.key for one in kind.sizes if one.needed and one.key not in gives):
            yield size, f"{random.uniform(0.1, 1.5):.4f}"


def _sizes(random: Random, kind: FeatureKind, spread: float) -> Iterator[tuple[str, str]]:
    """Sizes as in the example, as a whole and each by itself larger or smaller; some that may be left out too."""
    example = {key: text for key, text in kind.example.items() if key in {one.key for one in kind.sizes}}
    inches = {key: read_size(text, "in", key, (0.0, 0.0)).nominal / INCH for key, text in example.items()}
    known = [*inches.values()] or [0.5]
    for one in kind.sizes:
        if one.key not in example and random.random() < 0.25:
            inches[one.key] = random.choice(known) * 2 ** random.uniform(-1.5, 2.5)
    if kind.one_of and random.random() < 0.4:
        other = random.choice(kind.one_of)
        inches = {key: size for key, size in inches.items() if key not in kind.one_of} | {other: max(known)}
    whole = 2 ** random.uniform(-1, 1)
    for key, size in inches.items():
        yield key, _length(random, size * whole * 2 ** (spread * random.uniform(-1, 1)))
    yield from ((one.key, kind.example[one.key]) for one in kind.standards if one.key in kind.example)


def _length(random: Random, size: float) -> str:
    """A fraction of an inch as a decimal, or any size, with some tolerance."""
    return f"{random.choice((max(1, round(size * 64)) / 64, max(0.005, round(size, 4)))):.4f}{random.choice(BANDS)}"


def _told(random: Random, kind: FeatureKind) -> dict[str, str]:
    """What its own options are told: those that it needs, and a fifth of the others."""
    told = {}
    for one in kind.options:
        choices = SPOKEN.get(one.key) or (one.value.split("|") if "|" in one.value else ())
        if choices and (one.needed or random.random() < 0.2):
            told[one.key] = random.choice(choices)
    return told


def _angles(random: Random, kind: FeatureKind) -> dict[str, str]:
    """Its angles: the example's, one that shops use, or any."""
    usual = {one.key: kind.example.get(one.key) or f"{one.usual:g}" for one in kind.angles}
    return {key: random.choice((of_it, "45", "60", "82", f"{random.uniform(25, 75):.1f}"))
            for key, of_it in usual.items()}


def _beside(random: Random) -> Iterator[tuple[str, str]]:
    """Whatever else may be asked of any kind."""
    side = random.choice((-1, 1)) * random.uniform(0.5, 3)
    for share, key, value in (
        (0.7, "material", random.choice(METALS)),
        (0.3, "wall", f"{random.uniform(0.05, 1.6):.4f}@{side:.4f}"),
        (0.2, "floor_radius", f"{random.randint(1, 7) / 64:.4f}"),
        (0.1, "corner_relief", f"{random.uniform(0.01, 0.1):.4f}"),
        (0.1, "below", f"{random.uniform(0.05, 0.6):.4f}"),
        (0.2, "hours", random.choice(("1", "4", "10"))),
        (0.1, "count", random.choice(("2", "5", "20"))),
        (0.1, "use", random.choice(("slide", "cover", "fixture"))),
    ):
        if random.random() < share:
            yield key, value
