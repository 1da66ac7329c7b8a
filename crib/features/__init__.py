"""The kinds of feature. To add one: a file with a `KIND`, called as the kind is, and its name in the line below."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from crib.features.base import Feature, FeatureKind
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.message import InWords, Message, a, said
from crib.light.modules import load

_FILES = ("slot", "t_slot", "step", "slit", "undercut", "hole", "counterbore", "tapped_hole", "gib_screw_holes",
          "dovetail", "dovetail_slide", "chamfer", "v_groove", "keyseat",
          "spotface", "facing", "round_groove", "countersink", "woodruff", "elongated_hole", "bolt_circle", "flats",
          "pocket", "flat_bottomed_hole", "corner_round",
          "bevel", "hole_chamfer", "inside_fillet", "internal_groove", "ring_groove", "bore_keyseat")

class _Kinds(Mapping[str, FeatureKind]):
    """The kinds by name, each loaded when it is asked for: a question is about one of them."""

    def __getitem__(self, name: str) -> FeatureKind:
        if name not in _FILE_OF:
            raise KeyError(name)
        kind: FeatureKind = load(f"crib.features.{_FILE_OF[name]}").KIND
        return kind

    def __iter__(self) -> Iterator[str]:
        return iter(_FILE_OF)

    def __len__(self) -> int:
        return len(_FILE_OF)


_FILE_OF = {file.replace("_", "-"): file for file in _FILES}
KINDS: Mapping[str, FeatureKind] = _Kinds()


_DRAWN: list[tuple[Request, Feature]] = []
"""What was drawn last, with what is known of it since."""


def draw(request: Request) -> Feature:
    """Draw what is asked: what was asked just before isn't drawn anew, of whatever cutters it is asked. Raises
    `CribError` for a kind that isn't known, ends that aren't reckoned with, and sizes that can't be together."""
    for asked, feature in _DRAWN:
        if asked == request:
            return feature
    drawn = _drawn(request)
    _DRAWN[:] = [*_DRAWN[-3:], (request, drawn)]
    return drawn


def _drawn(request: Request) -> Feature:
    """What is asked, drawn."""
    kind = KINDS.get(request.kind)
    if kind is None:
        raise CribError("feature", f"{request.kind!r} is not a kind of feature", request.kind,
                        "one of " + ", ".join(KINDS))
    if request.ends not in kind.ends:
        raise CribError("ends", f"{a(kind.name)} with ends {request.ends!r} can't be asked yet", request.ends,
                        "ends " + " or ".join(kind.ends) + (f"; {kind.other_ends}" if kind.other_ends else ""))
    feature = kind.draw(request)
    only_closed = {*feature.lengths.values(), "entry_hole"}
    if feature.layers is None and (request.ends == "closed" or request.sizes.keys() & only_closed):
        from crib.features.closed import with_layers

        feature = with_layers(feature)
    elif request.ends == "one":
        from crib.features.closed import with_its_stop

        feature = with_its_stop(feature)
    _check_walls(feature)
    return feature


def _check_walls(feature: Feature) -> None:
    """Nothing stands where the feature opens."""
    opening = feature.outline.most.spans_at(-1)
    back = max((right for _, right in opening), default=0) / 1e6
    front = min((left for left, _ in opening), default=0) / 1e6
    for wall in feature.request.walls:
        in_front = wall.distance < 0
        edge = front if in_front else back
        if wall.distance > edge if in_front else wall.distance < edge:
            away = _signed(wall.distance)
            what = said("a wall at {away} stands over the {feature}, which opens to {edge}", away=away,
                        feature=feature.words, edge=_signed(edge))
            right = ("a distance beyond the edge, counted from the centre line (of a step: from its wall), and below "
                     "zero in front")
            raise CribError("wall", what, away, right)


def _signed(mm: float) -> Message:
    return said("-{far}" if mm < 0 else "{far}", far=InWords(abs(mm)))
