"""Planning from large cribs, in ratio to reading the same rows by plain sqlite3 into dataclasses in the same run; the
reading by the store is counted in. Processor time, for another program on the machine says nothing of ours."""

from __future__ import annotations

import dataclasses
import gc
import resource
import sqlite3
import tempfile
import time
from collections.abc import Callable, Sequence
from functools import partial
from math import inf
from pathlib import Path
from statistics import median
from typing import NamedTuple

from crib.cli import _SELDOM
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request, texts_of
from crib.planning.best_plans import proved_plans
from crib.planning.search.watch import Watch
from crib.sample import questions, shop_settings
from crib.shop import Shop, from_json
from crib.store import open_crib
from tests.benchmarks.cribs import crib
from tests.benchmarks.plain_questions import plain_questions


class Asked(NamedTuple):
    """A kind of question, what its median may be in ratio to raw reading, what the slowest of all may, and whether its
    ends are closed."""

    kind: str
    limit: float
    most: float = inf
    is_closed: bool = False


ASKED = (Asked("t-slot", 8, 60), Asked("slot", 8, 45), Asked("step", 8, 45), Asked("slit", 8, 45),
         Asked("chamfer", 5, 15), Asked("slot", 16, 100, True), Asked("dovetail", 15, 600),
         Asked("dovetail-slide", 20, 300), Asked("hole", 12, 40), Asked("counterbore", 12, 40),
         Asked("flat-bottomed-hole", 16, 40), Asked("keyseat", 16, 150))
"""The medians are what is aimed at, or less where less is reached; the slowest twice what was reached."""

READING = 1.5
"""So many times raw reading may the store's reading take."""

TIMES_TENFOLD, MOST_MB = 12, 400
"""So many times what 10,000 cutters take may 100,000 take, and so much memory."""

REFUSED = 24
"""As many refusals are told in full as the command line asks for."""

BESIDE_EVERY = (24, 96, 200)
"""Cribs small enough for the search that prunes nothing."""

_PATIENCE = 60.0


def seconds(call: Callable[[], object]) -> float:
    """How long a call keeps the processor busy, rubbish of others swept away before."""
    gc.collect()
    begun = time.process_time()
    call()
    return time.process_time() - begun


def stored(number: int, folder: str) -> str:
    """A crib of so many made-up cutters on disk; where it lies."""
    place = str(Path(folder) / f"{number}.db")
    with open_crib(place, create=True) as new:
        new.take_in(crib(number))
    return place


def read(place: str) -> list[Cutter]:
    """Every cutter of a crib, as the commands read them."""
    with open_crib(place) as opened:
        return opened.cutters()


def raw(place: str) -> Callable[[], object]:
    """What reads the same rows by sqlite3 into dataclasses, and nothing else."""
    rows = sqlite3.connect(place)
    names = [column[0] for column in rows.execute("SELECT * FROM cutter LIMIT 0").description]
    kind = dataclasses.make_dataclass("Row", names, slots=True)
    return lambda: [kind(*row) for row in rows.execute("SELECT * FROM cutter")]


def answered(words: Sequence[str], cutters: Sequence[Cutter], shop: Shop) -> float | None:
    """How long a question takes from these cutters; None for sizes that can't be together."""
    try:
        request = read_request(words[0], texts_of(words[1:]), shop, "in")
        return seconds(lambda: advise(request, cutters, shop, most_refused=REFUSED, watch=Watch(patience=_PATIENCE)))
    except CribError:
        return None


class Beside(NamedTuple):
    """In ratio to raw reading: what the store's takes, and for each kind of question what each took, in turn."""

    reading: float
    ratios: list[list[float]]

    @property
    def is_within(self) -> bool:
        """Whether all is within its limits."""
        return self.reading <= READING and all(
            median(ratios) <= asked.limit and max(ratios) <= asked.most
            for asked, ratios in zip(ASKED, self.ratios, strict=True))

    def is_tenfold_of(self, less: Beside) -> bool:
        """Whether ten times the cutters take no more than they may: of the same questions."""
        pairs = [(median(more), median(few[:len(more)])) for more, few in zip(self.ratios, less.ratios, strict=True)]
        return all(more <= TIMES_TENFOLD / 10 * few for more, few in ((self.reading, less.reading), *pairs))


def taken_by(asked: Asked, cutters: Sequence[Cutter], shop: Shop, many: int) -> list[float]:
    """What so many random questions take, in turn [s]."""
    taken: list[float] = []
    for words in plain_questions(asked.kind, asked.is_closed):
        if (took := answered(words, cutters, shop)) is not None:
            taken.append(took)
        if len(taken) == many:
            break
    return taken


def beside_raw(cutters: int, many: int, shop: Shop, folder: str) -> Beside:
    """Print, and give, what everything takes beside raw reading."""
    place = stored(cutters, folder)
    plain = min(seconds(raw(place)) for _ in range(5))
    reading = min(seconds(partial(read, place)) for _ in range(5))
    owned = read(place)
    gc.freeze()  # as the command line does
    gc.set_threshold(_SELDOM)
    print(f"\n{cutters} cutters: raw {plain * 1000:.0f} ms, by the store {reading / plain:.2f} x raw; "
          f"limit {READING:g}")
    found = []
    for asked in ASKED:
        ratios = [(one + reading) / plain for one in taken_by(asked, owned, shop, many)]
        found.append(ratios)
        name, nine = asked.kind + (", closed" if asked.is_closed else ""), sorted(ratios)[len(ratios) * 9 // 10]
        print(f"  {name:18}{median(ratios):8.1f} x raw in the median of {many}, limit {asked.limit:g}; "
              f"nine in ten {nine:.1f}; most {max(ratios):.1f}, limit {asked.most:g}", flush=True)
    return Beside(reading / plain, found)


def beside_every(number: int) -> tuple[float, float]:
    """How long the best plan of the sample's first question takes, with the search and with every plan looked at."""
    from tests.unpruned import every_way

    shop, sample = from_json(shop_settings()), questions()[0]
    request = read_request(sample.make[0], texts_of(sample.make[1:]), shop, "in")
    some = (cutter for cutter in crib(8 * number) if cutter.kind in ("end-mill", "keyseat-cutter", "t-slot-cutter"))
    cutters = [cutter for _, cutter in zip(range(number), some, strict=False)]
    every = jobs_for(request, cutters, shop)
    asked = tuple(jobs.question for jobs in every)
    return seconds(lambda: proved_plans(every, 1)), seconds(lambda: every_way(asked, every[0].tools))


def report(counts: Sequence[int] = (10_000, 100_000), many: int = 60) -> bool:
    """Print the tables; whether all is within its limits."""
    shop = from_json(shop_settings())
    with tempfile.TemporaryDirectory() as folder:
        small = beside_raw(counts[0], many, shop, folder)
        within = small.is_within
        for number in counts[1:]:
            within = beside_raw(number, max(3, many // 20), shop, folder).is_tenfold_of(small) and within
    megabytes = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{megabytes:.0f} MB at the most, limit {MOST_MB}")
    print(f"\n{'beside every plan':20}{'search, s':>10}{'every, s':>10}")
    for number in BESIDE_EVERY:
        search, every = beside_every(number)
        print(f"{number:7} cutters{search:15.3f}{every:10.3f}")
    return within and megabytes <= MOST_MB
