"""Random questions of a large crib, answered with the sieve and without: verdict, plans, refusals shown and how many
there are must be the same.

    python -m tests.trials.sieve [--cutters 1000] [--count 300] [--kind t-slot] [--seed 7]
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from itertools import cycle

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.light.records import replace
from crib.machining import tools
from crib.planning import as_drawn
from crib.planning.advise import advise
from crib.planning.ask import read_request, texts_of
from crib.planning.bounds.bare import Bare
from crib.planning.large_cribs.sieves import Sieves
from crib.planning.search.watch import Watch
from crib.planning.told.advice import Advice, Plan, Refusal
from crib.sample import shop_settings
from crib.shop import Shop, from_json
from tests.benchmarks.cribs import crib
from tests.benchmarks.plain_questions import SIZES, plain_questions

REFUSED = 24
"""As many refusals are told in full as the command line asks for."""

PATIENCE = 60.0
"""So long [s] a question is looked into without the sieve; one that takes longer is passed over."""


@contextmanager
def without_the_sieve() -> Iterator[None]:
    """Every cutter is looked at closely, and every tool searched."""
    kept = (Sieves.told, as_drawn.MANY, tools.MANY, Bare.breaks_limit, Bare.falls_short, Bare.is_too_fast,
            Bare.in_order, Bare.may_clear)
    Sieves.told = lambda self, cutters: [None] * len(cutters)  # type: ignore[method-assign]
    as_drawn.MANY = tools.MANY = sys.maxsize
    Bare.breaks_limit = Bare.falls_short = lambda self, tool, room: False  # type: ignore[method-assign]
    Bare.is_too_fast = lambda self, tool: False  # type: ignore[method-assign]
    Bare.in_order = lambda self, tools, room: tools  # type: ignore[method-assign]
    Bare.may_clear = lambda self, tools, room: iter(tools)  # type: ignore[method-assign]
    try:
        yield
    finally:
        Sieves.told, as_drawn.MANY, tools.MANY = kept[:3]  # type: ignore[method-assign]
        (Bare.breaks_limit, Bare.falls_short, Bare.is_too_fast,  # type: ignore[method-assign]
         Bare.in_order, Bare.may_clear) = kept[3:]  # type: ignore[method-assign]


Shown = tuple[Advice, tuple[Plan, ...], tuple[Refusal, ...]]


def answer(words: Sequence[str], cutters: Sequence[Cutter], shop: Shop) -> Shown | None:
    """What is told, its plans and refusals put into words; None for sizes that can't be together, and where it takes
    too long."""
    watch = Watch(patience=PATIENCE)
    try:
        request = read_request(words[0], texts_of(words[1:]), shop, "in")
        found = advise(request, cutters, shop, most_refused=REFUSED, watch=watch).advice
    except CribError:
        return None
    return None if watch.ran_out else (replace(found, plans=(), refused=()), tuple(found.plans), tuple(found.refused))


def differs(words: Sequence[str], cutters: Sequence[Cutter], shop: Shop) -> bool | None:
    """Whether a question is answered otherwise without the sieve; None where that can't be told."""
    sieved = answer(words, cutters, shop)
    if sieved is None:
        return None
    with without_the_sieve():
        plain = answer(words, cutters, shop)
    if plain is None:
        return None
    return sieved != plain


def asked(kind: str | None, seed: int) -> Iterator[tuple[str, ...]]:
    """Questions of each kind in turn, open and closed."""
    kinds = [(kind, False)] if kind else [*((one, False) for one in SIZES), ("slot", True)]
    each = [plain_questions(one, is_closed, seed) for one, is_closed in kinds]
    return (next(questions) for questions in cycle(each))


def tried(cutters: int, count: int, kind: str | None = None, seed: int = 7) -> tuple[int, list[str]]:
    """How many questions were answered in both ways, and those that were answered otherwise."""
    shop, owned = from_json(shop_settings()), crib(cutters)
    told, wrong = 0, []
    for words in asked(kind, seed):
        is_other = differs(words, owned, shop)
        told += is_other is not None
        if is_other:
            wrong.append(" ".join(words))
            print("otherwise without:", *words, flush=True)
        if told >= count:
            return told, wrong
    raise AssertionError("questions never end")


def main() -> int:
    """Print how many were the same; the status says whether all were."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cutters", type=int, default=1000)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--kind")
    parser.add_argument("--seed", type=int, default=7)
    given = parser.parse_args()
    told, wrong = tried(given.cutters, given.count, given.kind, given.seed)
    print(f"{told} questions on {given.cutters} cutters, {len(wrong)} answered otherwise without the sieve")
    return bool(wrong)


if __name__ == "__main__":
    sys.exit(main())
