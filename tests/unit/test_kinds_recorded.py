"""Kinds that are recorded only, and what every cutter is called. Wording is common practice, no source."""

from __future__ import annotations

import pytest

from crib.cutters import KINDS, kind_of
from crib.cutters.base import CUTTER_KEYS, Cutter
from crib.cutters.checks import impossible
from crib.cutters.label import label
from crib.findings.errors import CribError

INCH = 25.4
LISTED = [
    "end-mill",
    "keyseat-cutter",
    "t-slot-cutter",
    "slitting-saw",
    "side-cutter",
    "dovetail-cutter",
    "angle-cutter",
    "chamfer-cutter",
    "countersink",
    "corner-rounding-cutter",
    "form-cutter",
    "face-mill",
    "fly-cutter",
    "drill",
    "centre-drill",
    "spot-drill",
    "reamer",
    "counterbore",
    "tap",
    "boring-bar",
    "blank",
]


def cutter(kind: str, **values: object) -> Cutter:
    return Cutter(1, kind).but(**values)


def test_every_kind_is_there() -> None:
    assert set(LISTED) <= set(KINDS)


@pytest.mark.parametrize("name", LISTED)
def test_a_kind_is_whole(name: str) -> None:
    kind = kind_of(name)
    assert kind.example is not None and kind.example.kind == name
    assert set(kind.size_keys) | set(kind.shown_keys) <= set(CUTTER_KEYS)
    assert any(getattr(kind.example, key) is not None for key in kind.size_keys)
    assert kind.check(kind.example) == () and impossible(kind.example) == ()
    assert kind.words in label(kind.example, "in") and kind.plural


@pytest.mark.parametrize(
    ("made", "said"),
    [
        (cutter("keyseat-cutter", diameter_mm=15.875, face_mm=4.7625, flutes=10), "5/8 x 3/16 keyseat cutter"),
        (cutter("end-mill", diameter_mm=12.7, flutes=4), "1/2 end mill, 4 flutes"),
        (cutter("end-mill", diameter_mm=12.7, corner_radius_mm=6.35, flutes=2), "1/2 ball end mill, 2 flutes"),
        (cutter("end-mill", diameter_mm=12.7, corner_radius_mm=1.524), "1/2 end mill, .060 corner radius"),
        (cutter("end-mill", diameter_mm=12.7, corner_radius_mm=0.0), "1/2 end mill"),
        (cutter("end-mill", diameter_mm=10.0), "10 mm end mill"),
        (cutter("tap", thread="1/4-20", tap_chamfer="plug"), "1/4-20 tap, plug"),
        (cutter("tap", thread="M6x1", tap_form="forming", hand="left"), "M6x1 tap, forming, left hand"),
        (cutter("drill", diameter_mm=5.1054), "#7 drill"),
        (cutter("drill", diameter_mm=6.5278), "F drill"),
        (cutter("drill", diameter_mm=6.35), "1/4 drill"),
        (cutter("drill", diameter_mm=5.1), "5.1 mm drill"),
        (cutter("reamer", diameter_mm=12.6873), ".4995 reamer"),
        (cutter("end-mill", diameter_mm=13.4645), ".530 end mill"),
        (cutter("corner-rounding-cutter", radius_mm=3.175), "corner-rounding cutter, 1/8 radius"),
        (cutter("end-mill", nominal_mm=12.7, reground=True), "1/2 end mill, reground, not measured"),
        (cutter("end-mill", nominal_mm=12.7, diameter_mm=12.3825, reground=True), "1/2 end mill, reground to .4875"),
    ],
)
def test_labels_are_shop_words(made: Cutter, said: str) -> None:
    assert label(made, "in") == said


def test_labels_in_a_metric_shop() -> None:
    assert label(cutter("end-mill", diameter_mm=12.0), "mm") == "12 mm end mill"


@pytest.mark.parametrize(
    "made",
    [
        cutter("keyseat-cutter", diameter_mm=15.0, neck_mm=15.1),
        cutter("keyseat-cutter", nominal_mm=15.0, reground=True, neck_mm=16.0),
        cutter("keyseat-cutter", diameter_mm=15.0, face_mm=5.0, reach_mm=4.0),
        cutter("slitting-saw", diameter_mm=60.0, face_mm=30.0),
        cutter("slitting-saw", diameter_mm=60.0, bore_mm=61.0),
        cutter("end-mill", diameter_mm=10.0, length_of_cut_mm=60.0, overall_length_mm=50.0),
        cutter("end-mill", diameter_mm=10.0, shank_mm=60.0, overall_length_mm=50.0),
        cutter("end-mill", diameter_mm=10.0, corner_radius_mm=5.1),
        cutter("dovetail-cutter", diameter_mm=20.0, angle_deg=90.0),
        cutter("countersink", diameter_mm=20.0, angle_deg=180.0),
        cutter("centre-drill", diameter_mm=8.0, tip_mm=8.0),
        cutter("counterbore", diameter_mm=8.0, pilot_mm=8.0),
        cutter("boring-bar", diameter_mm=10.0, min_hole_mm=10.0),
    ],
)
def test_what_cannot_be_is_found(made: Cutter) -> None:
    """Every impossible record, and each finding says what would be right. Common practice, no source."""
    findings = (*impossible(made), *kind_of(made).check(made))
    assert findings and all(one.says and one.fix and one.read for one in findings)


def test_exact_fits_are_possible() -> None:
    assert impossible(cutter("keyseat-cutter", diameter_mm=15.0, neck_mm=15.0, face_mm=5.0, reach_mm=5.0)) == ()
    assert kind_of("end-mill").check(cutter("end-mill", diameter_mm=10.0, corner_radius_mm=5.0)) == ()


def test_a_kind_that_is_none() -> None:
    with pytest.raises(CribError):
        kind_of("hammer")
