"""Showing what the others found: the terminal page, the picture, the pass table and `--json`."""
