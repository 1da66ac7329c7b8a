"""What to put on the cut, by the metal, the operation and the cutter."""

from __future__ import annotations

from collections.abc import Iterable

from crib.handbook.materials import Material

_CARBIDE = ("carbide", "carbide-tipped")


def fluid(material: Material, into: Iterable[str] = (), steels: Iterable[str] = ()) -> str:
    """What is put on, or `dry`. A reamer and a tap want theirs in the hole; carbide wants it all the time or never, for
    drops on a hot edge crack it.

    Parameters: `into`: what wants it in the hole, in words, `steels`: what the cutters are made of [-]. References: the
    material's own, else common practice, no source.

    >>> from crib.handbook.materials import find_material as of
    >>> fluid(of("grey iron"), ["reamer"]), fluid(of("1018"), ["reamer"])
    ('dry', 'sulphurised oil, by brush; into the hole before the reamer')
    >>> fluid(of("6061"), [], ["carbide"])
    'light oil or paraffin; on carbide all the time or not at all'
    """
    if material.fluid.startswith("dry"):
        return material.fluid
    before = " and the ".join(dict.fromkeys(into))
    hole = f"; into the hole before the {before}" if before else ""
    return material.fluid + hole + ("; on carbide all the time or not at all" if set(steels) & set(_CARBIDE) else "")
