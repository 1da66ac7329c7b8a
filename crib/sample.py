"""The sample crib: an invented bench that comes with the program."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from crib.light.records import dataclass


@dataclass(frozen=True)
class Asking:
    """Something to ask of the sample crib: what is wanted in words, and the words behind `crib make`."""

    says: str
    make: tuple[str, ...]


def folder() -> Path:
    """The folder of the sample: inside the package where it was installed from a wheel, else beside it."""
    package = Path(__file__).resolve().parent
    inside = package / "_sample_crib"
    return inside if inside.is_dir() else package.parent / "sample_crib"


def shop_settings() -> dict[str, Any]:
    """The settings of the sample's shop."""
    return dict(json.loads((folder() / "shop.json").read_text(encoding="utf-8")))


def prices() -> tuple[dict[str, str], ...]:
    """The prices that the sample's owner has seen, as they are typed."""
    return tuple(json.loads((folder() / "prices.json").read_text(encoding="utf-8")))


def parts() -> dict[str, str]:
    """The parts that the sample's owner makes, each its text under its name."""
    return {path.stem.replace("-", " "): path.read_text(encoding="utf-8")
            for path in sorted((folder() / "parts").glob("*.toml"))}


def questions() -> tuple[Asking, ...]:
    """What to ask, the T-slot first."""
    listed = json.loads((folder() / "questions.json").read_text(encoding="utf-8"))
    return tuple(Asking(one["says"], tuple(one["make"])) for one in listed)
