"""The command line. Nothing is imported here until it runs."""

from __future__ import annotations

_SELDOM = 50_000
"""After so many more things it is looked for rubbish: as usual, after 700, that is a twentieth of a plan's time."""


def main() -> None:
    """The `crib` command; ends the program with its status."""
    import gc
    import sys

    gc.disable()  # imports make no garbage, and looking for it costs a twentieth of a quick answer
    from crib.cli.app import run

    gc.freeze()
    gc.set_threshold(_SELDOM)
    gc.enable()
    sys.exit(int(run(sys.argv[1:])))
