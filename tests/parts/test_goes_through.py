"""What goes through a part is as deep as its stock is thick there, where nobody says otherwise."""

from __future__ import annotations

import pytest

from crib.parts.toml import part_from_toml
from crib.planning.parts.asked import AskedFeature, asked_feature
from crib.shop import Shop

PART = 'name = "p"\nstock = "{stock}"\nunits = "{units}"\nmaterial = "mild steel"\n[[feature]]\n'
HOLES = ('kind = "hole"\ndiameter = "{size}"', 'kind = "tapped-hole"\nthread = "1/4-20"',
         'kind = "bolt-circle"\ndiameter = "{wide}"\nhole = "{size}"\nnumber = "4"')


@pytest.mark.parametrize(("face", "level", "thick"), [
    ("top", 0, 25.4), ("bottom", 0, 25.4), ("front", 0, 50.8), ("back", 0, 50.8), ("left", 0, 101.6),
    ("right", 0, 101.6), ("top", 6.35, 19.05)])
@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("hole", HOLES)
def test_as_thick_as_the_stock(hole: str, units: str, face: str, level: float, thick: float) -> None:
    """Of a block of 4 x 2 x 1 in, by hand; from a floor a quarter down a quarter less."""
    by = 25.4 if units == "in" else 1.0
    text = PART.format(stock=" x ".join(f"{one / by:g}" for one in (101.6, 50.8, 25.4)), units=units)
    text += hole.format(size=f"{6.35 / by:g}", wide=f"{12.7 / by:g}") + f'\nthrough = true\nface = "{face}"\n'
    text += f'at = "{12.7 / by:g}, {12.7 / by:g}"\nlevel = "{level / by:g}"\n'
    asked = asked_of_first(text, units)
    assert asked.request.sizes["depth"].nominal == pytest.approx(thick)
    assert asked_of_first(text + 'depth = "3mm"\n', units).request.sizes["depth"].nominal == pytest.approx(3)


def asked_of_first(text: str, units: str) -> AskedFeature:
    """What is asked of the one feature of a part."""
    part = part_from_toml(text, "part.toml").part
    return asked_feature(part, part.features[0], Shop(units=units))
