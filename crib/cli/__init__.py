"""The command line. Nothing is imported here until it runs."""

from __future__ import annotations


def main() -> None:
    """The `crib` command; ends the program with its status."""
    import sys

    from crib.cli.app import run

    sys.exit(int(run(sys.argv[1:])))
