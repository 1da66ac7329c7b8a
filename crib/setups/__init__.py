"""The ways that work and cutter stand to each other. A set-up turns the section so that the axis always stands upright,
and adds its own minutes and risk. One file each, with its `SETUP` in the tuple below."""

from __future__ import annotations

from crib.setups import face_level, on_its_side, tilted, upright
from crib.setups.base import Setup

SETUPS: dict[str, Setup] = {setup.name: setup for setup in (upright.SETUP, on_its_side.SETUP, tilted.SETUP,
                                                            face_level.SETUP)}
