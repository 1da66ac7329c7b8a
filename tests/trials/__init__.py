"""Long trials of what must never happen, run by hand: `python -m tests.trials.NAME`. A sample of each is a test."""
