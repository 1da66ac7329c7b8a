"""Things that are no cutters and are named by measuring them. To add one: write its file, and name it here."""

from __future__ import annotations

from crib.planning.gauging import dovetails, internal_threads, screws, tapers
from crib.planning.gauging.base import Thing

THINGS: dict[str, Thing] = {thing.name: thing for thing in (
    screws.THING, internal_threads.THING, tapers.THING, dovetails.SLOT, dovetails.SLIDE)}
