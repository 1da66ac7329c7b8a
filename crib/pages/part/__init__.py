"""Showing a whole part: what it is, how it lies and is made, and its sheet."""
