"""Reading and writing lengths. Nothing above this package ever sees a unit: inside, a length is a float in
millimetres, and in the kernel and the store a whole number of nanometres.

>>> read("3/4", "in").mm
19.05
>>> show(19.05, "in"), show(19.05, "mm"), as_fraction(19.05)
('.750', '19.050', '3/4')
"""

from crib.units.length import NM, Length, Size, as_basic, nm
from crib.units.read import read
from crib.units.read_size import read_size
from crib.units.show import as_fraction, in_words, show, show_apart

__all__ = ["NM", "Length", "Size", "as_basic", "as_fraction", "in_words", "nm", "read", "read_size", "show",
           "show_apart"]
