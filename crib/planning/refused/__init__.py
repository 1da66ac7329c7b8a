"""Which cutters can't, the nearest first, each with the one change that would do."""
