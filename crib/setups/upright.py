"""The work lies as it is drawn, the axis square to its surface."""

from __future__ import annotations

from crib.setups.base import Setup

SETUP = Setup(name="upright", words="work flat, spindle square to it",
              held="on parallels in the vise or clamped, its front face indicated {true}", turn=lambda outline: outline,
              lay=lambda layers, outline: layers)
