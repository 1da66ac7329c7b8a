"""The command line. Nothing is imported here until it runs."""

from __future__ import annotations


def main() -> None:
    """The `crib` command; ends the program with its status."""
    import gc
    import sys

    gc.disable()  # imports make no garbage, and looking for it costs a twentieth of a quick answer
    from crib.cli.app import run

    gc.freeze()
    gc.enable()
    sys.exit(int(run(sys.argv[1:])))
