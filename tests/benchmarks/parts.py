"""`python -m tests.benchmarks.parts`: choice and order of whole parts, beside taking each feature's own best way and
always going on with the nearest change; and how long it takes with 20 and with 60 operations."""

from __future__ import annotations

import sys
from random import Random
from statistics import median
from time import process_time

from crib.planning.parts.choosing import solved
from tests.part_problems import as_shops_have, nearest_change

PARTS = 100


def main() -> int:
    """Print what comes of it."""
    ratios, proved = [], 0
    for seed in range(PARTS):
        problem = as_shops_have(Random(seed), 8)
        found = solved(problem, _over(2.0))
        assert found is not None
        ratios.append(nearest_change(problem) / found.cost)
        proved += found.is_proved
    print(f"{PARTS} parts of 8 features: nearest change costs {median(ratios):.3f} times the best in the middle, "
          f"{min(ratios):.3f} at the least, {max(ratios):.3f} at the most; {proved} proved")
    for features, seconds in ((11, 2.0), (32, 10.0)):
        for seed in range(5):
            problem = as_shops_have(Random(1000 + seed), features)
            began = process_time()
            found = solved(problem, _over(seconds))
            assert found is not None
            print(f"{len(found.steps)} operations: {found.cost:.1f}, at the least {found.least:.1f} "
                  f"({found.cost / found.least - 1:.1%} more), {process_time() - began:.2f} s; nearest change "
                  f"{nearest_change(problem):.1f}")
    return 0


def _over(seconds: float):  # type: ignore[no-untyped-def]
    until = process_time() + seconds
    return lambda: process_time() > until


if __name__ == "__main__":
    sys.exit(main())
