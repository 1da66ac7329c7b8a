"""The options for a cutter's attributes and for the shop's settings."""

from __future__ import annotations

from crib.cli.declared import Slot
from crib.intake.attributes import ATTRIBUTES
from crib.intake.shop_settings import SETTINGS

_SKIPPED = ("questions",)

CUTTER_SLOTS: tuple[Slot, ...] = tuple(
    Slot(key, attribute.name, attribute.help, "SIZE" if key.endswith("_mm") else "TEXT")
    for key, attribute in ATTRIBUTES.items() if key not in _SKIPPED
)
SHOP_SLOTS: tuple[Slot, ...] = tuple(
    Slot(key, setting.name, setting.help, "SIZE" if key.endswith("_mm") else "TEXT", hidden=bool(setting.source))
    for key, setting in SETTINGS.items()
)
