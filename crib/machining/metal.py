"""The metal of a question: what it is made of, as hard as it is said to be."""

from __future__ import annotations

from crib.features.request import Request
from crib.findings.errors import CribError
from crib.handbook.hard_metal import at_hardness
from crib.handbook.materials import DEFAULT_MATERIAL, Material, find_material
from crib.shop import Shop


def metal_of(request: Request, shop: Shop) -> Material:
    """The material that a feature is asked in, at its hardness.

    Raises `CribError` for one that isn't known, that isn't cut on a mill, or that the bench must be ready for first.
    """
    material = ask_first(find_material(request.material or DEFAULT_MATERIAL), shop)
    if not request.hardness:
        return at_hardness(material, None)
    from crib.handbook.hardness import read_hardness

    return at_hardness(material, read_hardness(request.hardness))


def ask_first(material: Material, shop: Shop) -> Material:
    """The material, if the bench is ready for it; raises `CribError` for one that must be asked about first."""
    if material.group == "magnesium" and not shop.magnesium:
        raise CribError("magnesium", "magnesium burns: is the bench ready for it?", material.name,
                        "dry sand or a class D extinguisher within reach, no water and no water-mixed fluid near, "
                        "sharp cutters, chips swept up and kept from sparks; then: crib shop --magnesium")
    return material
