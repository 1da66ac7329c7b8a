"""What is made by number: centre drills and taper pins."""

from __future__ import annotations

CENTRE_DRILLS = {1: ("1/8", "3/64"), 2: ("3/16", "5/64"), 3: ("1/4", "7/64"), 4: ("5/16", "1/8"), 5: ("7/16", "3/16"),
                 6: ("1/2", "7/32"), 7: ("5/8", "1/4"), 8: ("3/4", "5/16")}
"""Body and pilot of plain centre drills [in] (ASME B94.11M, from memory)."""

TAPER_PINS = {0: ".156", 1: ".172", 2: ".193", 3: ".219", 4: ".250", 5: ".289", 6: ".341", 7: ".409", 8: ".492",
              9: ".591", 10: ".706"}
"""Large ends of taper pins [in]; 1/4 in to the foot (ASME B18.8.2, from memory)."""
