"""Hypothesis as every test uses it, whichever are run: the profiles of `tests/strategies.py`."""

from __future__ import annotations

from tests import strategies

__all__ = ["strategies"]
