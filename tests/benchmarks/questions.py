"""`python -m tests.benchmarks.questions [--count N] [--crib sample|300|both] [--kind KIND] [--seed N] [--limit S]`:
processor time of planning and answering random questions of all kinds, ends, walls and floor radii, a fifth of them
with what changes of the drawing would do, without any patience but the limit; the ten slowest with what they spent it
on. A fixed piece of work is timed among them: what it takes more than its least is the machine's doing. With `--check`
the status is 1 where something takes longer than it may.

Not a test: a busy machine tells nothing.
"""

from __future__ import annotations

import argparse
import shlex
import signal
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from types import FrameType, ModuleType
from typing import NamedTuple

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.findings.errors import CribError
from crib.intake.lists.files import read_file
from crib.planning import advise as planning
from crib.planning import relax as relaxing
from crib.planning.ask import read_request, texts_of
from crib.planning.search.watch import Watch
from crib.sample import folder, shop_settings
from crib.shop import Shop
from crib.store import open_crib
from tests.benchmarks.any_question import FLAGS, RELAX, questions
from tests.benchmarks.cribs import crib as made_up


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

    @property
    def typed(self) -> str:
        """As it is typed."""
        pairs = zip(self.words[1::2], self.words[2::2], strict=False)
        values = [word for name, value in pairs for word in ((name,) if name in FLAGS else (name, value))]
        return shlex.join(["crib", "make", self.words[0], *values, *([RELAX] if self.relaxes else [])])


LIMITS = {False: 3.0, True: 10.0}
"""What one question may take, without and with changes of the drawing [s]."""

AT_99 = 1.0
"""What 99 in 100 may take [s]."""


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
    vars(relaxing)["CHANGES"] = limit  # its own patience would hide what a search takes
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


def ask(name: str, cutters: Sequence[Cutter], shop: Shop, given: argparse.Namespace) -> list[Timed]:
    """So many random questions of one crib, told."""
    found, floors = list[Timed](), list[float]()
    for number, words in enumerate(questions(Random(given.seed), given.count, given.kind)):
        if number % 20 == 0:
            floors.append(floor())
        if one := timed(words, cutters, shop, given.limit):
            found.append(one)
    found.sort(reverse=True)
    floors.sort()
    print(f"{name}, {len(cutters)} cutters, {len(found)} questions; the fixed work takes {floors[0] * 1e3:.0f} ms at "
          f"the least, {floors[len(floors) // 2] * 1e3:.0f} at the median")
    for relaxes, what in ((None, "all"), (False, "plain"), (True, "with --relax")):
        some = [one.seconds for one in found if relaxes in (None, one.relaxes)]
        if some:
            median, most = at(some, 0.5), at(some, 0.99)
            over = sum(one.seconds > LIMITS[one.relaxes] for one in found if relaxes in (None, one.relaxes))
            print(f"  {what:12} {len(some):5}: p50 {median:.3f} s, p99 {most:.3f} s, most {some[0]:.2f} s, {over} over")
    slow = [one for place, one in enumerate(found) if place < 10 or one.seconds > LIMITS[one.relaxes]]
    for one in slow:
        print(f"  {one.seconds:7.2f} s  {one.answer:14} {one.typed}\n             {one.why}")
    return found


def floor() -> float:
    """What a fixed piece of work takes [s]."""
    begun = time.process_time()
    sum({number % 97: number for number in range(500_000)}.values())
    return time.process_time() - begun


def at(falling: Sequence[float], share: float) -> float:
    """What so large a share takes no longer than."""
    return falling[min(len(falling) - 1, int(len(falling) * (1 - share)))]


def is_over(found: Sequence[Timed]) -> bool:
    """Whether any takes longer than it may."""
    return at([one.seconds for one in found], 0.99) > AT_99 or any(one.seconds > LIMITS[one.relaxes] for one in found)


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
    parser.add_argument("--crib", choices=("sample", "300", "both"), default="both")
    parser.add_argument("--kind", choices=sorted(KINDS), help="of this kind alone")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--limit", type=float, default=20.0)
    parser.add_argument("--check", action="store_true", help="status 1 where something is over its limit")
    given = parser.parse_args(words)
    cutters, shop = sample()
    cribs = {"sample": ("the sample crib", cutters), "300": ("a mixed crib", made_up(300))}
    asked = [ask(*one, shop, given) for name, one in cribs.items() if given.crib in (name, "both")]
    return int(given.check and any(map(is_over, asked)))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
