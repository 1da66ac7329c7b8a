"""`python -m tests.benchmarks.questions [--count N] [--seed N] [--limit S]`: processor time of random questions of all
kinds, ends, walls and floor radii, a fifth of them with what changes of the drawing would do, from the sample crib and
from a mixed one of 300 cutters; the ten slowest with what they spent it on. With `--check` the status is 1 where
something takes longer than it may.

Not a test: a busy machine tells nothing.
"""

from __future__ import annotations

import argparse
import signal
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from types import FrameType, ModuleType
from typing import NamedTuple

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.findings.errors import CribError
from crib.intake.files import read_file
from crib.planning import advise as planning
from crib.planning import relax as relaxing
from crib.planning.ask import read_request, texts_of
from crib.planning.watch import Watch
from crib.sample import folder, shop_settings
from crib.shop import Shop
from crib.store import open_crib
from tests.benchmarks.cribs import crib as made_up

METALS = ("mild steel", "grey iron", "brass", "bronze", "6061", "304", "4140", "tool steel")
BANDS = ("", "", "", "+.001-0", "+.002-0", "+.005-0", "+.02-0", "\u00b1.0005", "\u00b1.003")


class Slow(Exception):
    """A question took longer than it may."""


class Timed(NamedTuple):
    """One question with the processor time that it took [s], its answer, and what it spent the time on."""

    seconds: float
    answer: str
    words: tuple[str, ...]
    why: str

    @property
    def relaxes(self) -> bool:
        """Whether it asked for changes of the drawing too."""
        return RELAX in self.words


RELAX = "--relax"
LIMITS = {False: 3.0, True: 10.0}
"""What one question may take, without and with changes of the drawing [s]."""

AT_99 = 1.0
"""What 99 in 100 may take without them [s]."""


def length(random: Random, low: float, high: float) -> str:
    """A fraction of an inch as a decimal, or any size, with some tolerance."""
    sizes = (round(random.uniform(low, high) * 64) / 64, round(random.uniform(low, high), 4))
    return f"{random.choice(sizes):.4f}{random.choice(BANDS)}"


def question(random: Random) -> tuple[str, ...]:
    """The words of a question: a kind, its sizes, and whatever else may be asked of it."""
    kind = random.choice(("slot", "step", "t-slot", "t-slot", "keyseat", *KINDS))
    words = [kind, *(_SIZES[kind](random) if kind in _SIZES else _any(random, kind))]
    ends = random.choice(KINDS[kind].ends)
    if ends != "open" and "--length" not in words:
        words += ["--ends", ends, "--length", f"{random.uniform(1, 8):.4f}"]
    if random.random() < 0.7:
        words += ["--material", random.choice(METALS)]
    if random.random() < 0.3:
        words += ["--wall", f"{random.uniform(0.05, 1.6):.4f}@{random.choice((-1, 1)) * random.uniform(0.5, 3):.4f}"]
    if random.random() < 0.2:
        words += ["--floor-radius", f"{random.randint(1, 7) / 64:.4f}"]
    if random.random() < 0.2:
        words += ["--hours", str(random.choice((1, 4, 10)))]
    return tuple(words)


def _any(random: Random, kind: str) -> list[str]:
    """What a kind must be asked with, and no more."""
    words = [word for spec in KINDS[kind].sizes if spec.needed
             for word in (f"--{spec.key.replace('_', '-')}", length(random, *_USUAL.get(spec.key, (0.1, 0.8))))]
    for angle in KINDS[kind].angles:
        words += [f"--{angle.key}", random.choice(("60", "82", "90"))]
    for option in KINDS[kind].options:
        if option.needed:
            words += [f"--{option.key}", random.choice(("1/4-20", "10-32", "M6", "3/8-16"))]
    return words


_USUAL = {"width": (0.1, 1.5), "diameter": (0.25, 1.2), "radius": (0.05, 0.5), "hole": (0.1, 0.24)}
"""From what to what sizes are asked for [in]."""


def _plain(random: Random) -> list[str]:
    return ["--width", length(random, 0.15, 1.5), "--depth", length(random, 0.1, 1.2)]


def _step(random: Random) -> list[str]:
    return ["--width", length(random, 0.2, 4.0), "--depth", length(random, 0.1, 1.0)]


def _slit(random: Random) -> list[str]:
    return ["--width", length(random, 0.03, 0.25), "--depth", length(random, 0.1, 1.0)]


def _t_slot(random: Random) -> list[str]:
    if random.random() < 0.4:
        return ["--bolt", random.choice(("1/4", "3/8", "1/2", "5/8", "3/4", "M8", "M10", "M12", "M16"))]
    throat, height = random.uniform(0.2, 0.9), random.uniform(0.1, 0.4)
    head = throat + random.uniform(0.15, 0.7)
    return ["--throat", f"{throat:.4f}", "--depth", f"{height + random.uniform(0.15, 0.7):.4f}", "--head-width",
            f"{head:.4f}", "--head-height", f"{height:.4f}"]


def _undercut(random: Random) -> list[str]:
    return ["--width", length(random, 0.05, 0.4), "--depth", length(random, 0.02, 0.3)]


def _dovetail(random: Random) -> list[str]:
    return ["--angle", random.choice(("60", "45", "55")), "--depth", length(random, 0.1, 0.4), "--width",
            length(random, 0.8, 2.5)]


def _slide(random: Random) -> list[str]:
    return ["--angle", random.choice(("60", "45", "55")), "--height", length(random, 0.1, 0.4), "--width",
            length(random, 0.8, 2.0)]


def _chamfer(random: Random) -> list[str]:
    return ["--size", f"{random.uniform(0.02, 0.2):.4f}"]


def _v_groove(random: Random) -> list[str]:
    return ["--angle", random.choice(("60", "90", "82")), "--width", f"{random.uniform(0.05, 0.4):.4f}"]


def _hole(random: Random) -> list[str]:
    sixty_fourths = Fraction(random.randint(6, 60), 64)
    return ["--diameter", f"{float(sixty_fourths):.4f}", "--depth", f"{random.uniform(0.2, 1.5):.4f}"]


def _pocket(random: Random) -> list[str]:
    wide, long = sorted(random.uniform(0.6, 2.5) for _ in range(2))
    return ["--width", length(random, wide, wide), "--length", length(random, long, long),
            "--depth", length(random, 0.1, 1.2), "--corner-radius", length(random, 0.07, 0.3)]


_SIZES: dict[str, Callable[[Random], list[str]]] = {
    "step": _step, "slit": _slit, "t-slot": _t_slot, "undercut": _undercut, "dovetail": _dovetail,
    "dovetail-slide": _slide, "slot": _plain, "chamfer": _chamfer, "v-groove": _v_groove, "hole": _hole,
    "pocket": _pocket,
}


@contextmanager
def counted() -> Iterator[dict[str, float]]:
    """What the parts of an answer take [s] while it lasts."""
    spent, before = dict.fromkeys(_PARTS, 0.0), {name: getattr(module, name) for name, module in _PARTS.items()}

    def kept(name: str) -> Callable[..., object]:
        def call(*given: object, **named: object) -> object:
            begun = time.process_time()
            try:
                return before[name](*given, **named)
            finally:
                spent[name] += time.process_time() - begun
        return call

    for name, module in _PARTS.items():
        setattr(module, name, kept(name))
    try:
        yield spent
    finally:
        for name, module in _PARTS.items():
            setattr(module, name, before[name])


_PARTS: dict[str, ModuleType] = {"asked_of": planning, "proved_plans": planning, "refusals": planning,
                                 "at_their_kindest": planning, "could_be": planning, "relax": relaxing}


def timed(words: tuple[str, ...], cutters: Sequence[Cutter], shop: Shop, limit: float) -> Timed | None:
    """Ask, no longer than a limit [s]; None where the sizes can't be together."""
    def stop(number: int, frame: FrameType | None) -> None:
        raise Slow

    signal.signal(signal.SIGVTALRM, stop)
    watch = Watch(patience=limit)
    with counted() as spent:
        begun = time.process_time()
        signal.setitimer(signal.ITIMER_VIRTUAL, limit)
        try:
            request = read_request(words[0], texts_of([one for one in words[1:] if one != RELAX]), shop, "in")
            found = planning.advise(request, cutters, shop, most_refused=24, watch=watch).advice
            said = f"{found.answer}"
            if RELAX in words and found.answer not in ("as drawn", "refer"):
                relaxing.relax(request, found, cutters, shop)
        except CribError:
            return None
        except Slow:
            said = "stopped"
        finally:
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        seconds = time.process_time() - begun
    rest = seconds - sum(spent.values())
    parts = sorted({**spent, "the rest": rest}.items(), key=lambda one: -one[1])[:2]
    why = ", ".join(f"{name} {part:.2f}" for name, part in parts) + f"; {watch.tried} drafts, {watch.found} plans"
    return Timed(seconds, said, words, why)


def ask(name: str, cutters: Sequence[Cutter], shop: Shop, count: int, seed: int, limit: float) -> list[Timed]:
    """So many random questions of one crib, told."""
    random, found = Random(seed), list[Timed]()
    while len(found) < count:
        words = question(random)
        words = (*words, RELAX) if random.random() < 0.2 else words
        if one := timed(words, cutters, shop, limit):
            found.append(one)
    found.sort(reverse=True)
    print(f"{name}, {len(cutters)} cutters, {count} questions")
    for relaxes, what in ((False, "plain"), (True, "with --relax")):
        some = [one.seconds for one in found if one.relaxes == relaxes]
        if some:
            median, most = at(some, 0.5), at(some, 0.99)
            print(f"  {what:12} {len(some):5}: p50 {median:.3f} s, p99 {most:.3f} s, most {some[0]:.2f} s")
    for one in found[:10]:
        print(f"  {one.seconds:7.2f} s  {one.answer:14} {' '.join(one.words)}\n             {one.why}")
    return found


def at(falling: Sequence[float], share: float) -> float:
    """What so large a share takes no longer than."""
    return falling[min(len(falling) - 1, int(len(falling) * (1 - share)))]


def is_over(found: Sequence[Timed]) -> bool:
    """Whether any takes longer than it may."""
    plain = [one.seconds for one in found if not one.relaxes]
    return at(plain, 0.99) > AT_99 or any(one.seconds > LIMITS[one.relaxes] for one in found)


def sample() -> tuple[Sequence[Cutter], Shop]:
    """The cutters of the sample crib, and its shop."""
    settings = shop_settings()
    reading = read_file(folder() / "cutters.json", settings["units"], settings["currency"])
    with TemporaryDirectory() as there, open_crib(str(Path(there) / "sample.db"), create=True) as opened:
        opened.take_in([one.cutter for one in reading.taken])
        return opened.cutters(), opened.set_shop(settings)


def main(words: Sequence[str]) -> int:
    """Ask both cribs; whether all is within its limits."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.questions", description=__doc__)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--limit", type=float, default=20.0)
    parser.add_argument("--check", action="store_true", help="status 1 where something is over its limit")
    given = parser.parse_args(words)
    cutters, shop = sample()
    cribs = (("the sample crib", cutters), ("a mixed crib", made_up(300)))
    over = [is_over(ask(name, some, shop, given.count, given.seed, given.limit)) for name, some in cribs]
    return int(given.check and any(over))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
