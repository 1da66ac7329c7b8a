"""`python -m tests.benchmarks.questions [--count N] [--seed N] [--limit S]`: processor time of random questions of all
kinds, ends, walls and floor radii, from the sample crib and from a mixed one of 300 cutters, and the ten slowest.

Not a test: a busy machine tells nothing.
"""

from __future__ import annotations

import argparse
import signal
import time
from collections.abc import Callable, Sequence
from fractions import Fraction
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from types import FrameType
from typing import NamedTuple

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.findings.errors import CribError
from crib.intake.files import read_file
from crib.planning.advise import advise
from crib.planning.ask import read_request, texts_of
from crib.planning.watch import PATIENCE, Watch
from crib.sample import folder, shop_settings
from crib.shop import Shop
from crib.store import open_crib
from tests.benchmarks.cribs import crib as made_up

METALS = ("mild steel", "grey iron", "brass", "bronze", "6061", "304", "4140", "tool steel")
BANDS = ("", "", "", "+.001-0", "+.002-0", "+.005-0", "+.02-0", "\u00b1.0005", "\u00b1.003")


class Slow(Exception):
    """A question took longer than it may."""


class Timed(NamedTuple):
    """One question with the processor time that it took [s] and its answer."""

    seconds: float
    answer: str
    words: tuple[str, ...]


def length(random: Random, low: float, high: float) -> str:
    """A fraction of an inch as a decimal, or any size, with some tolerance."""
    sizes = (round(random.uniform(low, high) * 64) / 64, round(random.uniform(low, high), 4))
    return f"{random.choice(sizes):.4f}{random.choice(BANDS)}"


def question(random: Random) -> tuple[str, ...]:
    """The words of a question: a kind, its sizes, and whatever else may be asked of it."""
    kind = random.choice(("slot", "slot", "step", "step", "t-slot", "t-slot", "slit", "dovetail", "dovetail-slide",
                          "undercut", "chamfer", "v-groove", "hole"))
    words = [kind, *_SIZES.get(kind, _plain)(random)]
    ends = random.choice(KINDS[kind].ends)
    if ends != "open":
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


_SIZES: dict[str, Callable[[Random], list[str]]] = {
    "step": _step, "slit": _slit, "t-slot": _t_slot, "undercut": _undercut, "dovetail": _dovetail,
    "dovetail-slide": _slide, "chamfer": _chamfer, "v-groove": _v_groove, "hole": _hole,
}


def timed(words: tuple[str, ...], cutters: Sequence[Cutter], shop: Shop, limit: float) -> Timed | None:
    """Ask, no longer than a limit [s]; None where the sizes can't be together."""
    def stop(number: int, frame: FrameType | None) -> None:
        raise Slow

    signal.signal(signal.SIGVTALRM, stop)
    begun = time.process_time()
    signal.setitimer(signal.ITIMER_VIRTUAL, limit)
    try:
        request = read_request(words[0], texts_of(words[1:]), shop, "in")
        answer = advise(request, cutters, shop, most_refused=24, watch=Watch(patience=limit))
        said = answer.advice.answer
    except CribError:
        return None
    except Slow:
        said = "stopped"
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
    return Timed(time.process_time() - begun, said, words)


def ask(name: str, cutters: Sequence[Cutter], shop: Shop, count: int, seed: int, limit: float) -> list[Timed]:
    """So many random questions of one crib, told."""
    random, found = Random(seed), list[Timed]()
    while len(found) < count:
        if one := timed(question(random), cutters, shop, limit):
            found.append(one)
    found.sort(reverse=True)
    at = {share: found[min(count - 1, int(count * (1 - share)))].seconds for share in (0.5, 0.99)}
    print(f"{name}, {len(cutters)} cutters, {count} questions: p50 {at[0.5]:.3f} s, p99 {at[0.99]:.3f} s, "
          f"most {found[0].seconds:.2f} s, over 2 s: {sum(one.seconds > 2 for one in found)}")
    for one in found[:10]:
        print(f"  {one.seconds:7.2f} s  {one.answer:14} {' '.join(one.words)}")
    return found


def sample() -> tuple[Sequence[Cutter], Shop]:
    """The cutters of the sample crib, and its shop."""
    settings = shop_settings()
    reading = read_file(folder() / "cutters.json", settings["units"], settings["currency"])
    with TemporaryDirectory() as there, open_crib(str(Path(there) / "sample.db"), create=True) as opened:
        opened.take_in([one.cutter for one in reading.taken])
        return opened.cutters(), opened.set_shop(settings)


def main() -> None:
    """Ask both cribs."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--limit", type=float, default=20.0)
    given = parser.parse_args()
    cutters, shop = sample()
    for name, some in (("the sample crib", cutters), ("a mixed crib", made_up(300))):
        ask(name, some, shop, given.count, given.seed, given.limit)


if __name__ == "__main__":
    main()
