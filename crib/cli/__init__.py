"""The command line. Nothing is imported here until it runs."""

from __future__ import annotations

_SELDOM = 100_000
"""After so many more things it is looked for rubbish: as usual, after 700, that is a twentieth of a plan's time."""

_TOLD_LAST = frozenset({"atexit", "threading"})
"""Modules by which something is yet to be done when the program ends, where they are loaded."""


def main() -> None:
    """The `crib` command; ends the program with its status."""
    import gc
    import sys

    gc.disable()  # imports make no garbage, and looking for it costs a twentieth of a quick answer
    from crib.light.imports import directly

    directly()
    from crib.cli.app import run

    gc.freeze()
    gc.set_threshold(_SELDOM)
    gc.enable()
    status = int(run(sys.argv[1:]))
    if _TOLD_LAST.isdisjoint(sys.modules):
        _leave(status)
    sys.exit(status)


def _leave(status: int) -> None:
    """End the program at once, all that was printed handed over: everything is stored and closed by now, and to take
    the program apart piece by piece first costs a twentieth of a quick answer. Where something can't be handed over
    that is left to the usual end, which says so."""
    import os
    import sys

    try:
        for stream in (sys.stdout, sys.stderr):
            if stream is not None:
                stream.flush()
    except (OSError, ValueError):
        return
    os._exit(status)
