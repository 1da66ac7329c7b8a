"""Things measured at random, of every kind that gauging names: what is told fits, and what doesn't is told apart.
`python -m tests.trials.gauge [SEEDS]`"""

from __future__ import annotations

import sys

from tests.cli.test_gauge import test_nothing_is_named_that_is_further_off_than_it_is_said as swept


def main() -> None:
    """Sweep with so many seeds, 150 things each."""
    seeds = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    for seed in range(seeds):
        swept(seed)
    print(f"{150 * seeds} things measured: nothing named that is further off than it is said")


if __name__ == "__main__":
    main()
