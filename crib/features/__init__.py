"""The kinds of feature. To add one: a file with a `KIND`, and its name in the line below."""

from __future__ import annotations

from importlib import import_module

from crib.diagnostics import CribError
from crib.features.base import Feature, FeatureKind, Request

_FILES = ("slot", "t_slot", "step", "hole", "counterbore", "tapped_hole", "gib_screw_holes")

KINDS: dict[str, FeatureKind] = {
    kind.name: kind for kind in (import_module(f"crib.features.{file}").KIND for file in _FILES)
}


def draw(request: Request) -> Feature:
    """Draw what is asked. Raises `CribError` for a kind that isn't known, ends that aren't reckoned with, and sizes
    that can't be together."""
    kind = KINDS.get(request.kind)
    if kind is None:
        raise CribError("feature", f"{request.kind!r} is not a kind of feature", request.kind,
                        "one of " + ", ".join(KINDS))
    if request.ends not in kind.ends:
        raise CribError("ends", f"a {kind.name} with ends {request.ends!r} is outside what is reckoned", request.ends,
                        "ends " + " or ".join(kind.ends))
    return kind.draw(request)
