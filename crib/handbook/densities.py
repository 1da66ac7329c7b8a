"""What metals and plastics weigh."""

from __future__ import annotations

from crib.handbook.materials import Material

KG_OF_LB = 0.45359237

_BY_NAME = {
    "ductile cast iron": 7.1, "malleable iron": 7.3, "stainless 400 series": 7.75, "free-cutting brass": 8.5,
    "bronze": 8.8, "aluminium bronze": 7.6, "beryllium copper": 8.25, "copper": 8.94, "nickel silver": 8.7,
    "zinc die casting": 6.6, "white metal": 7.4, "acetal": 1.41, "nylon": 1.14, "PVC": 1.4, "PTFE": 2.17,
    "glass-filled plastic": 1.35, "acrylic": 1.18, "polythene": 0.95, "polycarbonate": 1.2, "phenolic": 1.4,
    "titanium 6Al-4V": 4.43, "magnesium": 1.78,
}
_BY_GROUP = {"steel": 7.85, "stainless": 8.0, "iron": 7.2, "aluminium": 2.7, "brass": 8.5, "bronze": 8.8,
             "copper": 8.94, "titanium": 4.43, "magnesium": 1.78, "plastic": 1.4}


def density(material: Material) -> float | None:
    """What a cubic centimetre weighs [g]; None where it isn't known here.

    References: usual handbook values, from memory: steel .283 lb a cubic inch, grey iron .26, aluminium 6061 .098,
    free-cutting brass .307.

    >>> from crib.handbook.materials import find_material
    >>> [round(density(find_material(one)) * 16.387064 / 453.59237, 3) for one in ("1018", "grey iron", "6061", "360")]
    [0.284, 0.26, 0.098, 0.307]
    """
    return _BY_NAME.get(material.name, _BY_GROUP.get(material.group))
