"""Annular cutters: a ring of teeth that leaves a slug. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.gauged import by_size, parts_of_an_inch, whole_mm
from crib.cutters.speech import Name, Speech

KIND = Kind(
    name="annular-cutter",
    words="annular cutter",
    plural="annular cutters",
    gauging=by_size("annular-cutter", "annular cutter", lambda: (*parts_of_an_inch(7, 38, 16), *whole_mm(12, 60)),
                    rare=True),
    speech=Speech(largest=152.4, names=(Name(r"annular(?: cutters?)?"),),
                  phrases=((r"\b(annular\b.*?[\d./-]+(?: ?(?:inch|in|mm|\"))?) (?:deep|depth of cut)\b", r"\1 loc"),)),
    example=Cutter(0, "annular-cutter", diameter_mm=26.9875, shank_mm=19.05),
)
