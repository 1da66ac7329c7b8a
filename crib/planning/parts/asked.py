"""What is asked of each feature of a part: what was typed of it, what holds for the whole part, and what follows from
where it lies."""

from __future__ import annotations

from collections.abc import Mapping, Set

from crib.features import KINDS, draw
from crib.features.base import Feature
from crib.features.request import Request, is_yes
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.findings.message import a
from crib.light.records import replace
from crib.light.tuples import NamedTuple
from crib.parts.frame import frame_of
from crib.parts.part import Part, Placed, Runs
from crib.planning.ask import fields, read_request
from crib.shop import Shop

_KEPT_MM = 0.001


class AskedFeature(NamedTuple):
    """A feature of a part, with what is asked of it and how it is drawn."""

    placed: Placed
    request: Request
    feature: Feature


class AskedPart(NamedTuple):
    """The features of a part by name, and what of them can't be read or can't be together."""

    features: Mapping[str, AskedFeature]
    faults: Mapping[str, Finding]

    @property
    def requests(self) -> dict[str, Request]:
        """What is asked of each feature."""
        return {name: one.request for name, one in self.features.items()}

    @property
    def drawn(self) -> dict[str, Feature]:
        """How each feature is drawn."""
        return {name: one.feature for name, one in self.features.items()}


def asked_of(part: Part, shop: Shop) -> AskedPart:
    """What is asked of every feature of a part; those that can't be asked are among the faults."""
    features, faults = {}, {}
    for one in part.features:
        try:
            features[one.name] = asked_feature(part, one, shop)
        except CribError as error:
            faults[one.name] = error.finding
    return AskedPart(features, faults)


def asked_feature(part: Part, one: Placed, shop: Shop) -> AskedFeature:
    """What is asked of a feature where it lies. Raises `CribError` for what can't be read or can't be together."""
    check_texts(one)
    request = read_request(one.kind, _texts(part, one), shop, one.typed_in)
    feature = draw(request)
    placed = replace(request, below=_below(part, one, feature), length=_length(part, one, feature))
    return AskedFeature(one, placed, draw(placed) if placed != request else feature)


def check_texts(one: Placed) -> None:
    """Raises `CribError` for a kind that there isn't, and for what it isn't asked with."""
    if one.kind not in KINDS:
        raise CribError("feature", f"{one.kind!r} is not a kind of feature", one.kind, _one_of(one.kind, KINDS))
    known = {field.key: field.name for field in fields(KINDS[one.kind])}
    for key in one.texts:
        if key not in known:
            name = key.replace("_", "-")
            raise CribError("option", f"{a(one.kind)} isn't asked with {name!r}", name,
                            _one_of(name, known.values()))


def _one_of(word: str, names: object) -> str:
    from difflib import get_close_matches

    known = list(names)  # type: ignore[call-overload]
    near = get_close_matches(word, known, 2, 0.6)
    return f"did you mean {' or '.join(near)}?" if near else "one of " + ", ".join(known)


def _texts(part: Part, one: Placed) -> dict[str, str]:
    """What was typed of a feature, after what holds for all of the part."""
    whole = {"material": part.material, "use": part.use, "mating": part.fits,
             "hours": f"{part.hours:g}" if part.hours else ""}
    known = {field.key for field in fields(KINDS[one.kind])}
    told = {key: text for key, text in whole.items() if text and key in known}
    return told | dict(one.texts) | _thick(part, one, known)


def _thick(part: Part, one: Placed, known: Set[str]) -> dict[str, str]:
    """The depth of what goes through, where none was typed: the stock behind its face is as thick as it is."""
    if not {"through", "depth"} <= known or not is_yes(one.texts.get("through", "")) or one.texts.get("depth"):
        return {}
    thick = frame_of(part.stock, one.place.face).depth - one.place.level
    return {"depth": f"{thick / (25.4 if one.typed_in == 'in' else 1):.8g}"} if thick > _KEPT_MM else {}


def _below(part: Part, one: Placed, feature: Feature) -> float | None:
    """How much metal the stock leaves under it [mm], unless that was typed; None where it reaches through."""
    if feature.request.below is not None or part.stock.diameter is not None:
        return feature.request.below
    left = frame_of(part.stock, one.place.face).depth - one.place.level + feature.outline.aim.bounds()[1] / 1e6
    return round(left, 6) if left > _KEPT_MM else None


def _length(part: Part, one: Placed, feature: Feature) -> float | None:
    """How long what runs is [mm]: as typed, else as far as the stock goes from where it begins."""
    if feature.request.length is not None or feature.down is not None:
        return feature.request.length
    frame = frame_of(part.stock, one.place.face)
    whole, begins = ((frame.length, one.place.along) if one.place.runs is Runs.ALONG else
                     (frame.width, one.place.across))
    return round(whole - begins, 6) if whole > begins else None
