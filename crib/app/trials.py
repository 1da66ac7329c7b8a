"""What a row of trials is at, as whoever waits is told it."""

from crib.planning.search.watch import Trials

__all__ = ["Trials"]
