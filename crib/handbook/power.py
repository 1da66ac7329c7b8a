"""What a cut asks of the motor: power by the metal that is removed, torque at the spindle."""

from __future__ import annotations

from math import pi

from crib.handbook.materials import Material

NM_OF_LB_FT = 0.3048 * 4.4482216152605
W_OF_HP = 550 * NM_OF_LB_FT
W_S_MM3 = W_OF_HP * 60 / 25.4**3
"""Newton metres in a pound foot, watts in a horsepower, and watt seconds a cubic millimetre in a horsepower minute a
cubic inch."""

DRIVE = 0.8
"""Share of the motor's power that gets to the tool through belts or gears [-]. From memory."""

_TABLE = "Machinery's Handbook, 31st ed., p. 1147, Table 1b"
_RECALLED = "Machinery's Handbook, power constants, from memory"
_MEMORY = "from memory"

UNIT_POWER: dict[str, tuple[float, str]] = {
    "free-machining steel": (0.44, _TABLE), "mild steel": (0.69, _TABLE), "medium-carbon steel": (0.82, _TABLE),
    "alloy steel, annealed": (0.69, _TABLE), "pre-hard steel": (0.83, _MEMORY),
    "tool steel, annealed": (0.88, _RECALLED), "stainless 303": (0.72, _RECALLED),
    "stainless 304/316": (0.72, _RECALLED), "stainless 400 series": (0.75, _MEMORY),
    "grey cast iron": (0.71, _RECALLED), "grey cast iron, hard skin": (0.71, _RECALLED),
    "ductile cast iron": (0.60, _MEMORY), "malleable iron": (0.42, _RECALLED), "aluminium 6061": (0.33, _RECALLED),
    "cast aluminium": (0.25, _RECALLED), "free-cutting brass": (0.50, _RECALLED), "bronze": (0.50, _RECALLED),
    "aluminium bronze": (0.90, _MEMORY), "beryllium copper": (1.00, _MEMORY), "copper": (0.91, _RECALLED),
    "titanium 6Al-4V": (1.25, "Metal Cutting Tool Handbook, 4th ed., p. 524, lower bound"),
    "nickel silver": (0.60, _MEMORY), "magnesium": (0.16, _RECALLED),
    "zinc die casting": (0.25, _MEMORY), "white metal": (0.15, _MEMORY),
}
"""Horsepower at the tool over cubic inches a minute, sharp edges; where it comes from."""

PLASTIC = (0.10, _MEMORY)
"""The same for any plastic."""

HARDER = 0.01
"""How much more it takes for each point of Rockwell C above the hardness that a figure is for [-]. From memory."""


def unit_power(material: Material) -> float:
    """Power at the tool over the metal removed a second, at the material's hardness.

    Parameters: material. Returns: Kp [W s/mm3]. References: Machinery's Handbook 31st ed. p. 1147, others as named in
    the table. Examples: the 120 to 140 HB row of that page, .69 hp min/in3, is 1.88 W s/mm3.

    >>> from crib.handbook.materials import find_material
    >>> round(unit_power(find_material("1018")), 2)
    1.88
    """
    above = max(0.0, (material.hrc or material.usual_hrc) - material.usual_hrc)
    return UNIT_POWER.get(material.name, PLASTIC)[0] * W_S_MM3 * (1 + HARDER * above)


def cutting_power(material: Material, area_mm2: float, feed_mm_min: float) -> float:
    """The power that a cut takes at the tool.

    P = Kp A vf / 60

    Parameters: area of the cut square to the feed [mm2], feed [mm/min]. Returns: P [W].
    References: Machinery's Handbook 31st ed. p. 1146. Examples: worked here for 1 in3/min in mild steel, .69 hp.

    >>> from crib.handbook.materials import find_material
    >>> round(cutting_power(find_material("1018"), 25.4**2, 25.4) / 745.7, 2)
    0.69
    """
    return unit_power(material) * area_mm2 * feed_mm_min / 60


def torque(power_w: float, rpm: float) -> float:
    """The torque of a power at a speed.

    M = P / (2 pi N / 60)

    Parameters: P [W], N [rev/min]. Returns: M [N m]. References: kW = M N / 9550, any engineering text.

    >>> round(torque(1000, 9550), 2)
    1.0
    """
    return power_w * 60 / (2 * pi * rpm) if rpm > 0 else 0.0
