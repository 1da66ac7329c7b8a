"""Planning from large cribs, beside reading the same rows into dataclasses in the same run, and beside the search that
prunes nothing. Seconds of the processor, for another program on the machine says nothing of ours."""

from __future__ import annotations

import gc
import tempfile
import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from crib.cutters.base import Cutter
from crib.planning.advise import advise, jobs_for, proved_plans
from crib.planning.ask import read_request, texts_of
from crib.sample import questions, shop_settings
from crib.shop import Shop, from_json
from crib.store import open_crib
from tests.benchmarks.cribs import crib

TIMES_READING = 4
"""So many times what reading 10,000 rows takes may planning take from them."""

TIMES_TENFOLD = 12
"""So many times what 10,000 cutters take may 100,000 take."""

REFUSED = 24
"""As many refusals are told in full as the command line asks for."""

BESIDE_EVERY = (24, 96, 200)
"""Cribs small enough for the search that prunes nothing."""


def seconds(call: Callable[[], object]) -> float:
    """How long a call keeps the processor busy, rubbish of others swept away before."""
    gc.collect()
    begun = time.process_time()
    call()
    return time.process_time() - begun


def stored(count: int, folder: str) -> str:
    """A crib of so many made-up cutters on disk; where it lies."""
    place = str(Path(folder) / f"{count}.db")
    with open_crib(place, create=True) as new:
        new.take_in(crib(count))
    return place


def read(place: str) -> list[Cutter]:
    """Every cutter of a crib, as the commands read them."""
    with open_crib(place) as opened:
        return opened.cutters()


def planned(number: int, cutters: Sequence[Cutter], shop: Shop) -> float:
    """How long a question of the sample takes from these cutters."""
    asked = questions()[number]
    request = read_request(asked.make[0], texts_of(asked.make[1:]), shop, "in")
    return seconds(lambda: advise(request, cutters, shop, most_refused=REFUSED))


def table(counts: Sequence[int], rounds: int) -> list[tuple[int, float, list[float]]]:
    """For each count of cutters the best times of reading them and of answering each of the sample's questions."""
    shop, rows = from_json(shop_settings()), []
    with tempfile.TemporaryDirectory() as folder:
        for count in counts:
            place = stored(count, folder)
            reading = min(seconds(partial(read, place)) for _ in range(rounds))
            cutters = read(place)
            gc.freeze()  # as the command line does
            taken = [min(planned(number, cutters, shop) for _ in range(rounds)) for number in range(4)]
            rows.append((count, reading, taken))
    return rows


def beside_every(count: int) -> tuple[float, float]:
    """How long the best plan of the sample's first question takes, with the search and with every plan looked at."""
    from tests.property.test_completeness import every_way

    shop, sample = from_json(shop_settings()), questions()[0]
    request = read_request(sample.make[0], texts_of(sample.make[1:]), shop, "in")
    cutters = [cutter for cutter in crib(8 * count) if cutter.kind in ("end-mill", "keyseat-cutter", "t-slot-cutter")]
    every = jobs_for(request, cutters[:count], shop)
    asked = tuple(jobs.question for jobs in every)
    return seconds(lambda: proved_plans(every, 1)), seconds(lambda: every_way(asked, every[0].tools))


def report(counts: Sequence[int] = (1000, 10_000, 100_000), rounds: int = 3) -> bool:
    """Print the tables; whether all is within its limits."""
    rows = table(counts, rounds)
    names = ("T-slot", "slot", "step", "small T-slot")
    print(f"\n{'planning, s':18}{'reading':>9}" + "".join(f"{name:>14}" for name in names))
    for count, reading, taken in rows:
        shown = "".join(f"{one:8.2f}{one / reading:5.1f}x" for one in taken)
        print(f"{count:7} cutters   {reading:9.2f}{shown}")
    within = all(one <= TIMES_READING * reading for count, reading, taken in rows if count == 10_000 for one in taken)
    by_count = {count: taken for count, _, taken in rows}
    if 100_000 in by_count and 10_000 in by_count:
        tenfold = [large / small for large, small in zip(by_count[100_000], by_count[10_000], strict=True)]
        print("100,000 over 10,000         " + "".join(f"{one:13.1f}x" for one in tenfold))
        within = within and all(one <= TIMES_TENFOLD for one in tenfold)
    print(f"\n{'beside every plan':20}{'search, s':>10}{'every, s':>10}")
    for count in BESIDE_EVERY:
        search, every = beside_every(count)
        print(f"{count:7} cutters{search:15.3f}{every:10.3f}")
    return within
