"""Woodruff seats by their number against the printed table, and each asked by name and cut by its own cutter."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.errors import CribError
from crib.handbook.woodruff import _DIN, _METRIC, numbers, seat
from crib.intake.questions import read_question
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(50, 80, 135, 325, 660), collets_mm=(12.7,), neck_clearance_mm=0.254)

# ANSI/ASME B17.2-1967 (R2013) as tabulated in Machinery's Handbook, 31st edition, Table 8, and a textbook's reprint of
# B17.2: number, key width, diameter, greatest height, depth in the shaft [in].
ROWS = [line.split() for line in """
202 1/16 .250 .109 .0728    303 3/32 .375 .172 .1202    403 1/8 .375 .172 .1045     204 1/16 .500 .203 .1668
304 3/32 .500 .203 .1511    404 1/8 .500 .203 .1355     305 3/32 .625 .250 .1981    405 1/8 .625 .250 .1825
505 5/32 .625 .250 .1669    605 3/16 .625 .250 .1513    406 1/8 .750 .313 .2455     506 5/32 .750 .313 .2299
606 3/16 .750 .313 .2143    806 1/4 .750 .313 .1830     507 5/32 .875 .375 .2919    607 3/16 .875 .375 .2763
807 1/4 .875 .375 .2450     608 3/16 1.000 .438 .3393   808 1/4 1.000 .438 .3080    1008 5/16 1.000 .438 .2768
609 3/16 1.125 .484 .3853   809 1/4 1.125 .484 .3540    1009 5/16 1.125 .484 .3228  610 3/16 1.250 .547 .4483
810 1/4 1.250 .547 .4170    1010 5/16 1.250 .547 .3858  1210 3/8 1.250 .547 .3545   811 1/4 1.375 .594 .4640
1211 3/8 1.375 .594 .4015   812 1/4 1.500 .641 .5110    1212 3/8 1.500 .641 .4485
""".replace("    ", "\n").strip().splitlines() if line.strip()]


def inches(text: str) -> float:
    top, _, under = text.partition("/")
    return float(top) / float(under or 1)


def disc(number: str, **more: object) -> Cutter:
    """The cutter of a number, its neck as thick as its seat lets it be."""
    found = seat(number)
    across = found.diameter[0]
    return Cutter(1, "keyseat-cutter", number, diameter_mm=across, face_mm=found.key, flutes=8, shank_mm=12.7,
                  neck_mm=across - 2 * found.depth[1] - 0.06 * IN, reach_mm=found.key + 30.0, material="hss",
                  condition="sharp").but(**more)


def asked(number: str, *cutters: Cutter, shaft: str = "1", **texts: str) -> Advice:
    texts = {"key": number, "shaft": shaft, "material": "1018"} | texts
    return advise(read_request("woodruff", texts, SHOP, "in"), cutters, SHOP).advice


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_each_number(row: list[str]) -> None:
    found = seat(row[0])
    assert (found.key / IN, found.diameter[0] / IN) == pytest.approx((inches(row[1]), float(row[2])))
    assert (found.height[1] / IN, found.depth[0] / IN) == pytest.approx((float(row[3]), float(row[4])))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_each_seat_is_cut_by_its_own_cutter(row: list[str]) -> None:
    """As drawn, in a shaft twice as thick as the key: proved in the section and from above."""
    advice = asked(row[0], disc(row[0]), shaft=f"{2 * float(row[2]):.3f}")
    plan = advice.plans[0]
    assert advice.answer == "as drawn" and len(plan.passes) == 1
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0


def test_606_in_a_shaft_of_one_inch() -> None:
    """Worked by hand: seat .2143 deep at its side, crown (1 - sqrt(1 - .1875^2)) / 2 = .0089, .2232 in from the crown;
    over shaft and key 1 - .0089 + (.308 to .313 - .2143) = 1.085 to 1.090."""
    advice = asked("606", disc("606"))
    plan = advice.plans[0]
    told = {str(one.what): one.mm / IN for one in plan.figures if one.mm is not None}
    assert told["crown over the edges"] == pytest.approx(0.0089, abs=0.00005)
    assert told["infeed from the crown"] == pytest.approx(0.2232, abs=0.00005)
    assert told["over shaft and key, the least"] == pytest.approx(1.085, abs=0.0005)
    assert told["over shaft and key, the most"] == pytest.approx(1.090, abs=0.0005)
    [one] = plan.passes
    assert 0.2232 - 1e-4 <= 0.375 - one.path_mm[-1][1] / IN <= 0.2282 + 1e-4
    assert len({x for x, _ in one.path_mm}) == 1 and {"table", "knee"} <= set(one.locks) and "cross" not in one.locks
    assert "B17.2" in advice.feature["source"] and "vee blocks" in spelt(plan.hold)


def test_the_neck_is_no_fatter_than_the_diameter_less_twice_the_depth() -> None:
    """Geometry: .750 - 2 x .2168, the depth aimed at, less a clearance of .010 a side: .296 at the most."""
    assert asked("606", disc("606", neck_mm=0.285 * IN)).plans
    fat = asked("606", disc("606", neck_mm=0.325 * IN))
    assert (fat.answer, fat.refused[0].id) == ("cannot", "NK2")


def test_a_smaller_disc_lets_the_key_rock() -> None:
    """Geometry, worked by hand: fed along by .125 a 5/8 disc leaves a flat, .0052 off the 3/4 key in its middle."""
    advice = asked("606", disc("605", neck_mm=0.15 * IN))
    assert (advice.answer, advice.refused[0].id) == ("cannot", "SZ3")
    assert "rocks by .005" in spelt(advice.refused[0].says)
    hair = asked("606", disc("606", diameter_mm=0.7465 * IN)).refused[0]
    assert "the key rocks" in spelt(hair.says) and ".000" not in spelt(hair.says)
    wide = asked("606", disc("807", face_mm=0.1875 * IN))
    assert wide.answer == "cannot" and "end play" in spelt(wide.refused[0].says)


def test_a_narrower_disc_takes_two_heights() -> None:
    """Geometry: a face of .15625 in a seat of .18715 is shifted by .0155 up and down."""
    plan = asked("606", disc("506")).plans[0]
    heights = sorted({one.z_mm for one in plan.passes})
    assert len(heights) == 2 and (heights[1] - heights[0]) / IN == pytest.approx(2 * 0.0155, abs=0.0003)


@pytest.mark.parametrize(("key", "depth"), [("5x6.5", 4.5), ("3x5", 3.8), ("10x13", 10.0)])
def test_metric_keys(key: str, depth: float) -> None:
    """ISO 3912:1977, from memory."""
    assert seat(key).depth[0] == depth and "ISO 3912" in seat(key).source


@pytest.mark.parametrize("number", ["", "6", "999", "1302", "606x", "5x5"])
def test_what_is_no_number_is_said_so(number: str) -> None:
    with pytest.raises(CribError):
        seat(number)


@pytest.mark.parametrize(("texts", "says"), [
    ({"key": "1212", "shaft": "3/8"}, "as wide as the shaft"), ({"key": "606", "shaft": "7/16"}, "middle of the shaft"),
    ({"width": "1/8", "diameter": "1/4", "depth": ".13", "shaft": "1"}, "deeper than half of its key")])
def test_what_cannot_be_is_said_in_one_sentence(texts: dict[str, str], says: str) -> None:
    with pytest.raises(CribError, match=says):
        draw(read_request("woodruff", texts, SHOP, "in"))


@pytest.mark.parametrize(("texts", "help_is"), [
    ({"key": "606"}, "give --shaft"), ({"shaft": "1", "width": "1/4"}, "give --diameter --depth, or --key")])
def test_what_is_missing_is_asked_for_and_not_what_was_said(texts: dict[str, str], help_is: str) -> None:
    """A key's number has nothing to say about its shaft: whoever gave it isn't told to give it."""
    with pytest.raises(CribError) as caught:
        read_request("woodruff", texts, SHOP, "in")
    assert caught.value.finding.fix == help_is


@pytest.mark.parametrize(("shaft", "key"), [
    ("5/16", "204"), ("1/2", "304"), ("3/4", "404"), ("7/8", "505"), ("1", "606"), ("1-1/4", "807"), ("1-1/2", "810"),
    ("2", "1011"), ("2-1/2", "1211")])
def test_a_shaft_alone_has_its_key(shaft: str, key: str) -> None:
    """Machinery's Handbook, Woodruff keys for different shaft diameters, the first of each row (from memory)."""
    request = read_request("woodruff", {"shaft": shaft}, SHOP, "in")
    assert request.source is not None and request.source.startswith(f"key {key}:") and "from memory" in request.source
    named = read_request("woodruff", {"shaft": shaft, "key": key}, SHOP, "in")
    assert {name: size for name, size in request.sizes.items() if name != "shaft"} == {
        name: size for name, size in named.sizes.items() if name != "shaft"}


@pytest.mark.parametrize("shaft", ["1/4", "3"])
def test_a_shaft_beyond_the_table_is_told_its_limits(shaft: str) -> None:
    with pytest.raises(CribError, match="no Woodruff key for a shaft"):
        read_request("woodruff", {"shaft": shaft}, SHOP, "in")


@pytest.mark.parametrize(("key", "depth"), [("DIN 2.5x3.7", 2.9), ("din 6888 3x5", 3.8), ("DIN 6x9", 6.6)])
def test_din_and_iso_are_told_apart(key: str, depth: float) -> None:
    """DIN 6888:1956, a page's text to 4 mm wide, beyond that from memory: other depths than ISO 3912 for some."""
    assert seat(key).depth[0] == depth and "DIN 6888" in seat(key).source
    assert ("memory" in seat(key).source) == (seat(key).key > 4)


INCH_WAYS = ("woodruff key {key} in a 1 inch shaft", "key {key} in a 1 inch shaft", "#{key} woodruff, 1 inch shaft",
             "{key} keyseat in a 1 inch shaft", "woodruff key no. {key} ANSI B17.2, shaft 1 inch",
             "key {key} ASME B17.2 in a 1 inch shaft", "{key} half moon key in 1 inch shaft")
METRIC_WAYS = ("key {key} {standard} in 20mm", "key {standard} {key} in a 20 mm shaft", "woodruff {standard}, {wide} x "
               "{high}, shaft 20mm", "{wide} x {high} woodruff key to {standard} in a 20 mm shaft",
               "woodruff key {key}, {standard}, 20mm shaft")


@pytest.mark.parametrize("way", INCH_WAYS)
def test_every_number_of_a_key_is_read_in_words(way: str) -> None:
    """`key 606 in a 1 inch shaft` named nothing, and a `606 keyseat` was one 606 wide."""
    for number in numbers():
        found = read_question(way.format(key=number))
        assert (found.kind, found.texts["key"], found.texts["shaft"].replace(" ", "").removesuffix("in"), found.asks
                ) == ("woodruff", number, "1", ()), found


@pytest.mark.parametrize(("table", "standard"), [(_METRIC, "ISO 3912"), (_DIN, "DIN 6888")])
@pytest.mark.parametrize("way", METRIC_WAYS)
def test_every_metric_key_is_read_in_words_by_its_standard(way: str, table: dict[str, object], standard: str) -> None:
    """`3x5 woodruff key DIN 6888` was one of ISO 3912, whose seats are as deep for some keys only; and `3 x 5` was a
    key 3 with a seat 5 wide."""
    for name in table:
        wide, high = name.split("x")
        found = read_question(way.format(key=name, wide=wide, high=high, standard=standard))
        meant = seat(f"DIN {name}" if standard.startswith("DIN") else name)
        assert (found.kind, seat(found.texts["key"]), found.texts["shaft"].replace(" ", ""), found.asks) == (
            "woodruff", meant, "20mm", ()), found


@pytest.mark.parametrize("said", ["woodruff {} in 20mm shaft", "woodruff {} mm in a 20 mm shaft",
                                  "{} woodruff seat, shaft 20 mm"])
def test_a_metric_key_without_its_standard_is_iso(said: str) -> None:
    for name in _METRIC:
        for spelt_so in (name, name.replace("x", " x "), name.replace(".", ",")):
            found = read_question(said.format(spelt_so))
            assert not found.asks and seat(found.texts["key"]) == seat(name), found


@pytest.mark.parametrize(("old", "now"), [("1", "204"), ("9", "606"), ("A", "807"), ("b", "1008")])
def test_a_key_by_its_old_number_is_told_its_new_one(old: str, now: str) -> None:
    """`woodruff number 9` was told how numbers are made. Old numbers as in `old_number`, ANSI/ASME B17.2."""
    with pytest.raises(CribError) as told:
        seat(old)
    assert told.value.finding.fix == f"{now}: it was called {old.upper()} before"
