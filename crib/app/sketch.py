"""A feature drawn while it is being described: what isn't said yet is taken from the kind's example, to the scale of
what is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

from crib.features import KINDS, draw
from crib.features.base import Feature, FeatureKind
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.handbook.sizes import read_size
from crib.light.records import dataclass
from crib.planning.ask import read_request
from crib.shop import Shop

_NO_TOLERANCE = (0.0, 0.0)


@dataclass(frozen=True)
class Sketch:
    """What could be drawn of it. `filled`: what isn't typed yet and was taken from the example; `failed`: why it can't
    be drawn as it is typed, in which case the example stands there."""

    feature: Feature
    filled: tuple[str, ...] = ()
    failed: Finding | None = None


def sketch(name: str, texts: Mapping[str, str], units: str) -> Sketch:
    """What a kind of feature looks like, as far as it is described. Never raises for what is typed."""
    kind = KINDS[name]
    try:
        return Sketch(_drawn(name, texts, units))
    except CribError as error:
        found = error.finding
    for filling in _fillings(kind, texts, units):
        try:
            return Sketch(_drawn(name, {**filling, **texts}, units), tuple(filling))
        except CribError:
            continue
    needed = set(kind.example)
    failed = found if needed <= texts.keys() or _is_wrong(kind, texts, units) else None
    return Sketch(example(name), tuple(key for key in kind.example if key not in texts), failed)


@cache
def example(name: str) -> Feature:
    """A kind's example, drawn."""
    return _drawn(name, KINDS[name].example, "in")


def _drawn(name: str, texts: Mapping[str, str], units: str) -> Feature:
    return draw(read_request(name, texts, Shop(), units))


def _fillings(kind: FeatureKind, texts: Mapping[str, str], units: str) -> Iterator[dict[str, str]]:
    """What could stand for what isn't typed: only what a kind can't go without, then all of its example."""
    if any(one.key in texts for one in kind.standards):
        return
    scale = _scale(kind, texts, units)
    for keys in (kind.needed, tuple(kind.example)):
        yield {key: _scaled(kind, key, scale) for key in keys if key in kind.example and key not in texts}


def _scale(kind: FeatureKind, texts: Mapping[str, str], units: str) -> float:
    """How many times as large as the example it is, by what is typed; the middle one where that differs."""
    found = sorted(filter(None, (_ratio(kind, one.key, texts, units) for one in kind.sizes if one.key in texts)))
    return found[len(found) // 2] if found else 1.0


def _ratio(kind: FeatureKind, key: str, texts: Mapping[str, str], units: str) -> float:
    if key not in kind.example:
        return 0.0
    try:
        mine = read_size(texts[key], units, key, _NO_TOLERANCE).nominal
    except CribError:
        return 0.0
    return mine / read_size(kind.example[key], "in", key, _NO_TOLERANCE).nominal


def _scaled(kind: FeatureKind, key: str, scale: float) -> str:
    """An example's size as a text that goes in any unit; what is no size as it is."""
    if key not in {one.key for one in kind.sizes}:
        return kind.example[key]
    return f"{scale * read_size(kind.example[key], 'in', key, _NO_TOLERANCE).nominal:.4f}mm"


def _is_wrong(kind: FeatureKind, texts: Mapping[str, str], units: str) -> bool:
    """Whether one of the sizes that are typed is none."""
    for one in kind.sizes:
        try:
            read_size(texts.get(one.key, "1"), units, one.key, _NO_TOLERANCE)
        except CribError:
            return True
    return False
