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
    """A kind of question, whether its ends are closed, what its median may be in ratio to raw reading, and what was
    aimed at."""

    kind: str
    limit: float
    aim: float
    is_closed: bool = False


ASKED = (Asked("t-slot", 10.5, 8), Asked("slot", 9.5, 8), Asked("step", 10, 8), Asked("slit", 11, 8),
         Asked("chamfer", 5, 8), Asked("slot", 16, 20, True), Asked("dovetail", 15, 20),
         Asked("dovetail-slide", 20, 20))
"""The limits are a little over what is reached: chamfers, closed slots, dovetails and slides reach their aim, the
others not yet."""

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


def at_median(asked: Asked, cutters: Sequence[Cutter], shop: Shop, many: int) -> float:
    """The median of so many random questions [s]."""
    taken: list[float] = []
    for words in plain_questions(asked.kind, asked.is_closed):
        if (took := answered(words, cutters, shop)) is not None:
            taken.append(took)
        if len(taken) == many:
            break
    return median(taken)


def beside_raw(cutters: int, many: int, shop: Shop, folder: str) -> list[float]:
    """Print, and give, in ratio to raw reading what the store's takes, and for each kind of question the median."""
    place = stored(cutters, folder)
    plain = min(seconds(raw(place)) for _ in range(5))
    reading = min(seconds(partial(read, place)) for _ in range(5))
    owned = read(place)
    gc.freeze()  # as the command line does
    gc.set_threshold(_SELDOM)
    print(f"\n{cutters} cutters: raw {plain * 1000:.0f} ms, by the store {reading / plain:.2f} x raw; "
          f"limit {READING:g}")
    found = [reading / plain]
    for asked in ASKED:
        ratio = (at_median(asked, owned, shop, many) + reading) / plain
        found.append(ratio)
        name = asked.kind + (", closed" if asked.is_closed else "")
        print(f"  {name:18}{ratio:8.1f} x raw in the median of {many}; limit {asked.limit:g}, aim {asked.aim:g}",
              flush=True)
    return found


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
        limits = (READING, *(asked.limit for asked in ASKED))
        within = all(ratio <= limit for ratio, limit in zip(small, limits, strict=True))
        for number in counts[1:]:
            large = beside_raw(number, max(3, many // 20), shop, folder)
            within = all(more <= TIMES_TENFOLD / 10 * less for more, less in zip(large, small, strict=True)) and within
    megabytes = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{megabytes:.0f} MB at the most, limit {MOST_MB}")
    print(f"\n{'beside every plan':20}{'search, s':>10}{'every, s':>10}")
    for number in BESIDE_EVERY:
        search, every = beside_every(number)
        print(f"{number:7} cutters{search:15.3f}{every:10.3f}")
    return within and megabytes <= MOST_MB
