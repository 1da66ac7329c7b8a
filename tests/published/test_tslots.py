"""T-slots, their cutters and T-bolts against the printed rows."""

from __future__ import annotations

from fractions import Fraction

import pytest

from crib.findings.errors import CribError
from crib.handbook.tslots import (
    cutters,
    head_for_bolt,
    heads,
    slot_for_bolt,
    slots,
)

B5_1 = "ASME B5.1M-1985 (R2004), public table page"

# As printed there [in]: bolt; throat; head width; head height; throat depth (those above 3/8 from memory).
INCH = """
1/4    0.282  0.500 0.562  0.203 0.234  0.125 0.375
5/16   0.344  0.594 0.656  0.234 0.266  0.156 0.438
3/8    0.438  0.719 0.781  0.297 0.328  0.219 0.562
1/2    0.562  0.906 0.969  0.359 0.391  0.312 0.688
5/8    0.688  1.188 1.250  0.453 0.484  0.438 0.875
3/4    0.812  1.375 1.469  0.594 0.625  0.562 1.062
1      1.062  1.750 1.844  0.781 0.828  0.750 1.250
1-1/4  1.312  2.125 2.219  1.031 1.094  1.000 1.562
1-1/2  1.562  2.562 2.656  1.281 1.344  1.250 1.938
"""
# As printed there [mm], the last two columns BS 2485's whole depth, printed on a BS 2485 table page.
METRIC = """
M4   5  10   11    3  3.5  4.5 7   8   10
M5   6  11   12.5  5  6    5   8   11  13
M6   8  14.5 16    7  8    7   11  15  18
M8   10 16   18    7  8    9   14  17  21
M10  12 19   21    8  9    11  17  20  25
M12  14 23   25    9  11   12  19  23  28
M16  18 30   32    12 14   16  24  30  36
M20  22 37   40    16 18   20  29  38  45
M24  28 46   50    20 22   26  36  48  56
M30  36 56   60    25 28   33  46  61  71
M36  42 68   72    32 35   39  53  74  85
M42  48 80   85    36 40   44  59  84  95
M48  54 90   95    40 44   50  66  94  106
"""
# T-bolt heads as printed there [in]: bolt; width; height.
HEADS = """
1/4    0.438 0.469  0.141 0.156
5/16   0.531 0.562  0.172 0.188
3/8    0.656 0.688  0.234 0.250
1/2    0.844 0.875  0.297 0.312
5/8    1.094 1.125  0.391 0.406
3/4    1.281 1.312  0.500 0.531
1      1.656 1.688  0.656 0.688
1-1/4  2.031 2.062  0.906 0.938
1-1/2  2.469 2.500  1.156 1.188
"""
METRIC_HEADS = """
M4 8.5 9 2.1 2.5
M5 9.5 10 3.6 4
M6 12 13 5.6 6
M8 14 15 5.6 6
M10 17 18 6.6 7
M12 21 22 7.6 8
M16 27 28 9.6 10
M20 33 34 13.2 14
M24 42 43 17.2 18
M30 52 53 22.2 23
M36 63 64 27.2 28
M42 74 75 30.5 32
M48 84 85 34.5 36
"""
# Cutters, from memory of ASME B94.19 [in] and DIN 851 / ISO 3337 [mm]: bolt; diameter, face, neck, shank.
INCH_CUTTERS = """
1/4 .5625 .2344 .2656 .5
5/16 .6562 .2656 .3281 .5
3/8 .7812 .3281 .4062 .75
1/2 .9688 .3906 .5312 .75
5/8 1.25 .4844 .6562 1
3/4 1.4688 .625 .7812 1
1 1.8438 .8281 1.0312 1.25
"""
METRIC_CUTTERS = """
M4 11 3.5 4 10
M5 12.5 6 5 10
M6 16 8 7 10
M8 18 8 8 12
M10 21 9 10 12
M12 25 11 12 16
M16 32 14 15 16
M20 40 18 19 25
M24 50 22 25 32
M30 60 28 30 32
"""

# The sixty-fourths behind every value that the inch tables print.
SIXTY_FOURTHS = {
    ".344": "11/32", ".438": "7/16", ".562": "9/16", ".688": "11/16", ".812": "13/16", "1.062": "17/16",
    "1.312": "21/16", "1.562": "25/16", ".500": "1/2", ".594": "19/32", ".656": "21/32", ".719": "23/32",
    ".781": "25/32", ".906": "29/32", ".969": "31/32", "1.188": "19/16", "1.250": "5/4", "1.375": "11/8",
    "1.469": "47/32", "1.750": "7/4", "1.844": "59/32", "2.125": "17/8", "2.219": "71/32", "2.562": "41/16",
    "2.656": "85/32", ".203": "13/64", ".234": "15/64", ".266": "17/64", ".297": "19/64", ".328": "21/64",
    ".359": "23/64", ".391": "25/64", ".453": "29/64", ".484": "31/64", ".625": "5/8", ".828": "53/64",
    "1.031": "33/32", "1.094": "35/32", "1.281": "41/32", "1.344": "43/32", ".125": "1/8", ".375": "3/8",
    ".156": "5/32", ".219": "7/32", ".312": "5/16", ".875": "7/8", ".750": "3/4", "1.000": "1", "1.938": "31/16",
    ".469": "15/32", ".141": "9/64", ".531": "17/32", ".172": "11/64", ".188": "3/16", ".250": "1/4", ".844": "27/32",
    ".406": "13/32", "1.125": "9/8", "1.656": "53/32", "1.688": "27/16", "2.031": "65/32", "2.062": "33/16",
    ".938": "15/16", "2.469": "79/32", "2.500": "5/2", "1.156": "37/32",
}

# Printed values that no sixty-fourth rounds to: they stand as they are.
AS_PRINTED = {".282"}


def rows(table: str) -> list[list[str]]:
    return [line.split() for line in table.strip().splitlines()]


def sixty_fourth(printed: str) -> Fraction:
    """The sixty-fourth that rounds to a limit printed to three places, halves to even; our reading of the table."""
    value = Fraction(printed)
    near = Fraction(round(value * 64), 64)
    assert round(near * 1000) == value * 1000, f"{printed} is no sixty-fourth"
    return near


def exact(printed: str) -> float:
    if printed.removeprefix("0") in AS_PRINTED:
        return float(Fraction(printed) * Fraction(254, 10))
    return float(sixty_fourth(printed) * Fraction(254, 10))


def limits(slot) -> list[float]:
    return [slot.throat_mm, slot.head_width_min_mm, slot.head_width_max_mm, slot.head_height_min_mm,
            slot.head_height_max_mm, slot.throat_depth_min_mm, slot.throat_depth_max_mm]


@pytest.mark.parametrize("row", rows(INCH), ids=lambda row: row[0])
def test_inch_slots(row):
    """ASME B5.1M-1985 (R2004), public table page; throat depths above 3/8 from memory."""
    slot = slot_for_bolt(row[0])
    assert limits(slot) == [exact(printed) for printed in row[1:]]
    assert [f"{round(Fraction(mm).limit_denominator(10**8) / Fraction(254, 10) * 1000):d}" for mm in limits(slot)] == [
        f"{int(Fraction(printed) * 1000):d}" for printed in row[1:]]
    assert (slot.holding_mm, slot.locating_mm) == ((0.0, 0.254), (0.0, 0.0254))
    assert slot.source.startswith(B5_1)
    assert ("from memory" in slot.source) == (row[0] not in ("1/4", "5/16", "3/8"))


@pytest.mark.parametrize("row", rows(METRIC), ids=lambda row: row[0])
def test_metric_slots(row):
    """ASME B5.1M-1985 metric columns, public table page; whole depth from a BS 2485 table page."""
    slot = slot_for_bolt(row[0])
    *sizes, least, most = map(float, row[1:])
    assert limits(slot) == sizes
    assert slot.throat_depth_min_mm + slot.head_height_max_mm == least
    assert slot.throat_depth_max_mm + slot.head_height_min_mm == most


@pytest.mark.parametrize(("bolt", "h12", "h8"), [
    ("M4", 0.12, 0.018), ("M6", 0.15, 0.022), ("M8", 0.15, 0.022), ("M12", 0.18, 0.027), ("M16", 0.18, 0.027),
    ("M20", 0.21, 0.033), ("M30", 0.25, 0.039), ("M48", 0.30, 0.046)])
def test_metric_throat_grades(bolt, h12, h8):
    """ISO 286-2: H12 seen on public tables, H8 from memory."""
    slot = slot_for_bolt(bolt)
    assert (slot.holding_mm, slot.locating_mm) == ((0.0, h12), (0.0, h8))


@pytest.mark.parametrize("row", rows(HEADS) + rows(METRIC_HEADS), ids=lambda row: row[0])
def test_t_bolt_heads(row):
    """ASME B5.1M-1985 T-bolts, public table page."""
    head, read = head_for_bolt(row[0]), float if row[0].startswith("M") else exact
    assert [head.width_min_mm, head.width_max_mm, head.height_min_mm, head.height_max_mm] == [
        read(printed) for printed in row[1:]]
    slot = slot_for_bolt(row[0])
    assert head.width_max_mm < slot.head_width_min_mm
    assert head.height_max_mm < slot.head_height_min_mm


@pytest.mark.parametrize("row", rows(INCH_CUTTERS) + rows(METRIC_CUTTERS), ids=lambda row: row[0])
def test_cutters(row):
    """From memory of ASME B94.19 and DIN 851 / ISO 3337; a new cutter cuts its slot's greatest head."""
    cutter = next(one for one in cutters() if one.bolt == row[0])
    slot = slot_for_bolt(row[0])
    scale = 1 if row[0].startswith("M") else 25.4
    sizes = [cutter.diameter_mm, cutter.face_mm, cutter.neck_mm, cutter.shank_mm]
    assert sizes == pytest.approx([float(size) * scale for size in row[1:]], abs=0.00006 * scale)
    assert "from memory" in cutter.source
    assert cutter.diameter_mm == slot.head_width_max_mm
    assert cutter.face_mm == slot.head_height_max_mm
    assert cutter.neck_mm < slot.throat_mm


def test_every_printed_value_is_its_sixty_fourth():
    """Our reading of the printed table: n/64 rounded to three places, halves to even."""
    printed = {value.removeprefix("0") for row in rows(INCH) + rows(HEADS) for value in row[1:]}
    assert printed == set(SIXTY_FOURTHS) | AS_PRINTED
    for value, fraction in SIXTY_FOURTHS.items():
        assert sixty_fourth(value) == Fraction(fraction)


def test_no_sixty_fourth():
    for printed in (*AS_PRINTED, ".510", ".563"):
        with pytest.raises(AssertionError, match="no sixty-fourth"):
            sixty_fourth(printed)


def test_half_inch_row():
    """ASME B5.1M-1985: throat .562; head .906 to .969; head depth .359 to .391 in."""
    slot = slot_for_bolt("1/2 in")
    assert [slot.throat_mm, slot.head_width_min_mm, slot.head_width_max_mm] == [14.2875, 23.01875, 24.60625]
    assert [slot.head_height_min_mm, slot.head_height_max_mm] == pytest.approx([9.128125, 9.921875], abs=1e-9)


def test_m12_row():
    """ASME B5.1M-1985 metric; BS 2485: throat 14; head 23 to 25; head depth 9 to 11; whole depth 23 to 28 mm."""
    assert limits(slot_for_bolt("M12"))[:5] == [14, 23, 25, 9, 11]


@pytest.mark.parametrize(("text", "bolt"), [
    ("1/2", "1/2"), ("1/2 in", "1/2"), ('1/2"', "1/2"), (".5", "1/2"), ("0.500in", "1/2"), ("1-1/4", "1-1/4"),
    ("1 1/2", "1-1/2"), ("1.25", "1-1/4"), ("m12", "M12"), ("M 12", "M12"), ("12mm", "M12"), ("12 mm", "M12"),
    ("1/2 in bolt", "1/2"), ("M8 stud", "M8"), ("1", "1")])
def test_how_a_bolt_is_said(text, bolt):
    assert slot_for_bolt(text).bolt == bolt


@pytest.mark.parametrize("text", ["7/16", "M11", "", "bolt", "nan", "-1", "1/0", "12", "M", "2mm", "0", "1/4/2"])
def test_no_such_bolt(text):
    with pytest.raises(CribError) as caught:
        slot_for_bolt(text)
    assert "M12" in caught.value.finding.fix and "1-1/4" in caught.value.finding.fix
    assert caught.value.finding.id == "bolt"


def test_every_row_names_its_source():
    assert all(row.source for row in (*slots(), *cutters(), *heads()))
