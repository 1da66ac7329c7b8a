"""Screw threads: which there are, how they are written, their percent of thread and the limits of their holes.

Nothing here is imported before a thread is asked for.
"""

from crib.handbook.threads.base import Thread, ThreadForm
from crib.handbook.threads.limits import HoleLimits, hole_limits
from crib.handbook.threads.percent import forming_hole, forming_percent, hole_for, percent_of
from crib.handbook.threads.read import Reading, read_thread
from crib.handbook.threads.tables import threads

__all__ = [
    "HoleLimits", "Reading", "Thread", "ThreadForm", "forming_hole", "forming_percent", "hole_for", "hole_limits",
    "percent_of", "read_thread", "threads",
]
