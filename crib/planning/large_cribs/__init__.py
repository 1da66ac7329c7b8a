"""Thousands of cutters: which surely can, which surely can't, and the few that can come into the best plans."""
