"""`python -m crib` is `crib`."""

from crib.cli import main

main()
