"""A part as JSON: what it is made of, its features and where they lie; lengths in mm."""

from __future__ import annotations

from typing import Any

from crib.parts.part import Part, Place


def drawing_json(part: Part) -> dict[str, Any]:
    """What a part is: its stock and its features with their places, as the front left top corner counts them."""
    stock = part.stock
    return {
        "material": part.material,
        "stock": {"length_mm": stock.length, "width_mm": stock.width, "height_mm": stock.height,
                  "diameter_mm": stock.diameter},
        "hours": part.hours,
        "fits": part.fits,
        "use": part.use,
        "datum": part.datum,
        "features": [{"name": one.name, "kind": one.kind, "texts": dict(one.texts), "typed_in": one.typed_in,
                      "after": list(one.after), "places": list(map(_place, one.places))} for one in part.features],
    }


def _place(one: Place) -> dict[str, Any]:
    return {"face": one.face, "along_mm": one.along, "across_mm": one.across, "runs": one.runs, "level_mm": one.level}
