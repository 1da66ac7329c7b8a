"""Shop shorthand: a line as it is typed or said, read into a cutter. Words may be misspelt, sizes never are."""

from crib.intake.shorthand.confirm import confirm
from crib.intake.shorthand.line import Line, Shop, read_line

__all__ = ["Line", "Shop", "confirm", "read_line"]
