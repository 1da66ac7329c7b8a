"""Times, as ratios to an empty Python in the same run: `python -m tests.benchmarks`."""
