"""What is told after the best plan is worth telling, in whatever set-up and whenever it was found."""

from __future__ import annotations

from itertools import islice

import pytest

from crib.planning.advise import advise
from crib.planning.ask import read_request, texts_of
from crib.planning.search.shortlist import WORTH_TELLING
from crib.sample import shop_settings
from crib.shop import from_json
from tests.benchmarks.cribs import crib
from tests.benchmarks.plain_questions import plain_questions

CRIB, SHOP = tuple(crib(300)), from_json(shop_settings())
FOUND_EARLY = ("slit", "--width", "0.2067+.005-0", "--depth", "0.4487±.003", "--hours", "1")
"""A plan on its side was found before the best one upright, and told at three times its cost."""


OTHERS = (words for kind in ("slit", "step") for words in islice(plain_questions(kind, False), 4))


@pytest.mark.parametrize("words", [FOUND_EARLY, *OTHERS], ids=" ".join)
def test_no_runner_up_costs_much_more_than_the_best(words: tuple[str, ...]) -> None:
    """No more than half as much again, by the searches' own rule."""
    plans = advise(read_request(words[0], texts_of(words[1:]), SHOP, "in"), CRIB, SHOP).advice.plans
    assert all(one.cost <= WORTH_TELLING * plans[0].cost for one in plans)
