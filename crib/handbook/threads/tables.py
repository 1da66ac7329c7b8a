"""The threads there are, series by series, as compact text: `size-tpi` with the drill that charts give behind a mark.

`=` the drill was seen in print, `:` it was recalled and agrees with an open parts library, `~` it is from memory.
Dimensions are computed from size and pitch. Where no drill stands none was found in print: one is chosen by the limits.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from crib.handbook.threads.base import ASSOCIATION, IN, PIPE, SIXTY, WHITWORTH, Thread, ThreadForm
from crib.light.patterns import pattern

_B1 = "ASME B1.1-2003 Table 1, listing from memory"
_PAIRS = _B1 + "; sizes to 1 in also in an open parts library"
_CHART, _METRIC_CHART = "common US tap-drill table", "ISO 2306"
_MH = "Machinery's Handbook 31st ed., tap-drill Table 4"
_BS = "BS 1157:1975"

_INCH: tuple[tuple[str, ThreadForm, str, str, str], ...] = (
    ("UNC", SIXTY, _PAIRS, _CHART, """
        1-64:#53 2-56:#50 3-48:#47 4-40:#43 5-40:#38 6-32:#36 8-32:#29 10-24:#25 12-24:#16 1/4-20=#7 5/16-18=F
        3/8-16=5/16 7/16-14=U 1/2-13=27/64 9/16-12=31/64 5/8-11=17/32 3/4-10=21/32 7/8-9=49/64 1-8=7/8 1-1/8-7~63/64
        1-1/4-7~1-7/64 1-3/8-6~1-7/32 1-1/2-6~1-11/32 1-3/4-5~1-9/16 2-4.5~1-25/32"""),
    ("UNF", SIXTY, _PAIRS, _CHART, """
        0-80:3/64 1-72:#53 2-64:#50 3-56:#45 4-48:#42 5-44:#37 6-40:#33 8-36:#29 10-32:#21 12-28:#14 1/4-28=#3
        5/16-24=I 3/8-24=Q 7/16-20=25/64 1/2-20=29/64 9/16-18=33/64 5/8-18=37/64 3/4-16=11/16 7/8-14=13/16 1-12=59/64
        1-1/8-12~1-3/64 1-1/4-12~1-11/64 1-3/8-12~1-19/64 1-1/2-12~1-27/64"""),
    ("UNEF", SIXTY, _PAIRS, _CHART, """
        12-32:#13 1/4-32=7/32 5/16-32=9/32 3/8-32:11/32 7/16-28:Y 1/2-28:15/32 9/16-24:33/64 5/8-24:37/64
        11/16-24:41/64 3/4-20:45/64 13/16-20:49/64 7/8-20:53/64 15/16-20:57/64 1-20:61/64 1-1/16-18 1-1/8-18 1-3/16-18
        1-1/4-18 1-5/16-18 1-3/8-18 1-7/16-18 1-1/2-18 1-9/16-18 1-5/8-18 1-11/16-18"""),
    ("8-UN", SIXTY, _B1, "", "1-1/8-8 1-1/4-8 1-3/8-8 1-1/2-8 1-5/8-8 1-3/4-8 1-7/8-8 2-8"),
    ("12-UN", SIXTY, _B1, _MH, """
        5/8-12=35/64 11/16-12 3/4-12=43/64 13/16-12 7/8-12=51/64 15/16-12 1-1/16-12 1-3/16-12 1-5/16-12 1-7/16-12
        1-5/8-12 1-3/4-12 1-7/8-12 2-12"""),
    ("16-UN", SIXTY, _B1, _MH, """
        7/16-16 1/2-16 9/16-16 5/8-16 11/16-16=5/8 13/16-16 7/8-16 15/16-16 1-16 1-1/16-16 1-1/8-16 1-3/16-16 1-1/4-16
        1-5/16-16 1-3/8-16 1-7/16-16 1-1/2-16 1-5/8-16 1-3/4-16 2-16"""),
    ("20-UN", SIXTY, _B1, _MH, """
        5/16-20=17/64 3/8-20=21/64 9/16-20 5/8-20 11/16-20 1-1/16-20 1-1/8-20 1-1/4-20"""),
    ("28-UN", SIXTY, _B1, "", "5/16-28 3/8-28 9/16-28 5/8-28 11/16-28 3/4-28"),
    ("32-UN", SIXTY, _B1, "", "8-32 10-32 7/16-32 1/2-32 9/16-32 5/8-32"),
    ("special", SIXTY, "American National machine-screw specials, listing from memory", "", """
        14-20 14-24 10-28 10-30 8-30 8-24 8-40 6-36 6-48 8-48 4-36 5-36 3-50 9-32 12-20 16-20 18-18 20-20 1/4-30"""),
    ("special", SIXTY, _MH + " (American National Form)", _MH, """
        1/16-64=3/64 1/16-72=3/64 5/64-60=1/16 5/64-72=#52 3/32-48=#49 3/32-50=#49 7/64-48=#43 1/8-32=3/32 1/8-40=#38
        9/64-40=#32 5/32-32=1/8 5/32-36=#30 11/64-32=9/64 3/16-24=#26 3/16-32=#22 13/64-24=#20 7/32-24=#16 7/32-32=#12
        15/64-24=#10 1/4-24=#4 1/4-27=#3 1/4-40 5/16-27=J 3/8-27=R 7/16-24=X 7/16-27=Y 1/2-12=27/64 1/2-24 1/2-27=15/32
        9/16-27=17/32 5/8-27=19/32 3/4-27=23/32 1-14=15/16 7/8-18=53/64 1-27=31/32"""),
    ("BSW", WHITWORTH, "BS 84:1956, tpi agree with a public Whitworth table; 1/16, 3/32, 5/32 and 7/32 are older, from "
     "memory", _BS, """
        1/16-60~1.2mm 3/32-48~1.8mm 1/8-40=2.55mm 5/32-32~3.2mm 3/16-24=3.7mm 7/32-24~4.5mm 1/4-20=5.1mm 5/16-18=6.5mm
        3/8-16~7.9mm 7/16-14~9.3mm 1/2-12=10.5mm 9/16-12=12.1mm 5/8-11=13.5mm 11/16-11~15mm 3/4-10~16.25mm
        7/8-9=19.25mm 1-8=22mm 1-1/8-7=24.75mm 1-1/4-7~28mm 1-1/2-6=33.5mm 1-3/4-5=39mm 2-4.5=44.5mm"""),
    ("BSF", WHITWORTH, "BS 84:1956, from memory; tpi from 1/4 up agree with a gauge maker's range", _BS, """
        3/16-32~4mm 7/32-28~4.6mm 1/4-26~5.3mm 9/32-26~6.1mm 5/16-22~6.8mm 3/8-20~8.3mm 7/16-18~9.7mm 1/2-16~11.1mm
        9/16-16~12.7mm 5/8-14~14mm 11/16-14~15.5mm 3/4-12~16.75mm 13/16-12~18.25mm 7/8-11~19.75mm 1-10~22.75mm
        1-1/8-9~25.5mm 1-1/4-9~28.5mm 1-3/8-8~31.5mm 1-1/2-8~34.5mm 1-5/8-8 1-3/4-7 2-7"""),
    ("BSB", WHITWORTH, "trade practice, 26 tpi at every size; no standard's number found", "a model-engineer chart", """
        1/8-26 3/16-26 1/4-26=5.6mm 5/16-26=7.15mm 3/8-26=8.8mm 7/16-26=10.3mm 1/2-26=11.9mm 5/8-26 3/4-26 7/8-26
        1-26"""),
    ("ME", WHITWORTH, "model-engineer series, from memory", "a model-engineer chart", """
        1/8-40=2.6mm 5/32-40=3.3mm 3/16-40=4.1mm 7/32-40=5mm 1/4-40=5.8mm 5/16-40 1/4-32 9/32-32=6.35mm 5/16-32=7.15mm
        3/8-32=8.75mm 7/16-32 1/2-32 1/2-26=11.9mm 7/16-26=10.1mm 5/16-26"""),
)
_METRIC: tuple[tuple[str, str], ...] = (
    ("ISO coarse", """
        1.6x0.35:1.25 1.8x0.35:1.45 2x0.4:1.6 2.2x0.45:1.75 2.5x0.45:2.05 3x0.5:2.5 3.5x0.6:2.9 4x0.7:3.3 4.5x0.75~3.7
        5x0.8:4.2 6x1:5 7x1:6 8x1.25:6.8 9x1.25:7.8 10x1.5:8.5 11x1.5:9.5 12x1.75~10.2 14x2~12 16x2:14 18x2.5:15.5
        20x2.5:17.5 22x2.5~19.5 24x3~21 27x3~24 30x3.5~26.5 33x3.5~29.5 36x4~32"""),
    ("ISO fine", """
        1.6x0.2~1.4 2x0.25~1.75 2.5x0.35~2.15 3x0.35~2.65 3.5x0.35~3.15 4x0.5~3.5 4.5x0.5~4 5x0.5~4.5 6x0.75~5.2
        7x0.75~6.2 8x1:7 8x0.75~7.2 9x1:8 10x1.25:8.8 10x1:9 10x0.75~9.2 11x1~10 12x1.5:10.5 12x1.25:10.8 12x1~11
        14x1.5:12.5 14x1.25:12.8 14x1~13 16x1.5:14.5 16x1~15 18x2:16 18x1.5:16.5 18x1~17 20x2~18 20x1.5~18.5 20x1~19
        22x2~20 22x1.5~20.5 22x1~21 24x2~22 24x1.5~22.5 24x1~23 27x2~25 27x1.5~25.5 30x2~28 30x1.5~28.5 33x2~31
        33x1.5~31.5 36x3~33 36x2~34 36x1.5~34.5"""),
)
_ISO = "ISO 261:1998, listing from memory"
_BA_DRILLS = (5.1, 4.5, 4, 3.4, 3, 2.65, 2.3, 2.05, 1.8, 1.55, 1.4, 1.2, 1.05, 0.98, 0.8, 0.7, 0.6)
_BA_SOURCE = "BS 93 rule: p = 0.9^n mm, D = 6 p^1.2 mm from the unrounded p"
_BA_DRILL_SOURCE = "BS 1157, from memory; 4 to 16 BA agree with a public table"
_NPT = """
    1/16-27-.3125=D 1/8-27-.405=R 1/4-18-.540=7/16 3/8-18-.675=37/64 1/2-14-.840=23/32 3/4-14-1.050=59/64
    1-11.5-1.315=1-5/32 1-1/4-11.5-1.660=1-1/2 1-1/2-11.5-1.900=1-47/64 2-11.5-2.375=2-7/32"""
_NPT_SOURCE = "ASME B1.20.1-2013 Table 2, from memory; outside diameters 1/16 to 3/8 agree with a public table"
_NPT_DRILL_SOURCE = "common shop list for tapping without a taper reamer; 1/8 to 1 in seen on a public table"
_G = """
    1/16|7.723|28|6.561|.282 1/8|9.728|28|8.566|.282 1/4|13.157|19|11.445|.445 3/8|16.662|19|14.950|.445
    1/2|20.955|14|18.631|.541 5/8|22.911|14|20.587|.541 3/4|26.441|14|24.117|.541 7/8|30.201|14|27.877|.541
    1|33.249|11|30.291|.640 1-1/8|37.897|11|34.939|.640 1-1/4|41.910|11|38.952|.640 1-1/2|47.803|11|44.845|.640
    1-3/4|53.746|11|50.788|.640 2|59.614|11|56.656|.640"""
_G_SOURCE = "ISO 228-1, as carried in an open parts library"

_TOKEN = pattern(r"(?P<size>.+?)(?:-(?P<tpi>[\d.]+))?(?:(?P<mark>[=:~])(?P<drill>.+))?$")
_INCH_TOKEN = pattern(r"(?P<size>.+)-(?P<tpi>[\d.]+?)(?:(?P<mark>[=:~])(?P<drill>.+))?$")
_STANDING = {"=": "", ":": " (from memory; agrees with an open parts library)", "~": " (from memory)"}


@cache
def threads() -> tuple[Thread, ...]:
    """Every thread, the common series first.

    >>> len(threads()), threads()[9].designation, round(threads()[9].major_mm, 2)
    (374, '1/4-20 UNC', 6.35)
    """
    return (*_inch(), *_metric(), *_association(), *_taper_pipe(), *_straight_pipe())


def number_size_mm(number: int) -> float:
    """The major diameter of a machine-screw number: .060 + .013 n [in]; in mm.

    >>> round(number_size_mm(10) / 25.4, 3)
    0.19
    """
    return float(Fraction(60 + 13 * number, 1000) * Fraction(254, 10))


@cache
def inch_size_mm(text: str) -> float:
    """The major diameter of an inch size in figures: a fraction, whole inches or both [mm].

    >>> inch_size_mm("1-1/8"), inch_size_mm("1")
    (28.575, 25.4)
    """
    whole, _, rest = text.rpartition("-")
    value = (Fraction(whole) if whole else 0) + Fraction(rest)
    return float(value * Fraction(254, 10))


def _inch() -> Iterator[Thread]:
    for series, form, source, chart, block in _INCH:
        for token in block.split():
            found = _INCH_TOKEN.match(token)
            assert found
            size, tpi, mark, drill = found.group("size", "tpi", "mark", "drill")
            is_number = size.isdigit() and not (size in ("1", "2") and float(tpi) < 40)
            major = number_size_mm(int(size)) if is_number else inch_size_mm(size)
            yield Thread(f"{size}-{tpi}", series, major, IN / float(tpi), form, source, drill,
                         _drill_source(chart, mark, drill))


def _drill_source(chart: str, mark: str | None, drill: str | None) -> str:
    if not mark or not drill:
        return ""
    seen = _MH if mark == "=" and chart == _CHART else chart
    return seen + _STANDING[mark]


def _metric() -> Iterator[Thread]:
    for series, block in _METRIC:
        for token in block.split():
            found = _TOKEN.match(token)
            assert found
            major, _, pitch = found["size"].partition("x")
            yield Thread(f"M{found['size']}", series, float(major), float(pitch), SIXTY, _ISO, f"{found['drill']}mm",
                         _METRIC_CHART + _STANDING[found["mark"]])


def _association() -> Iterator[Thread]:
    for number, drill in enumerate(_BA_DRILLS):
        pitch = 0.9**number
        major = 6 * pitch**1.2
        yield Thread(str(number), "BA", round(major, 2 if major < 1 else 1), round(pitch, 2), ASSOCIATION, _BA_SOURCE,
                     f"{drill:g}mm", _BA_DRILL_SOURCE)


def _taper_pipe() -> Iterator[Thread]:
    for token in _NPT.split():
        sizes, _, drill = token.partition("=")
        size, tpi, across = sizes.rsplit("-", 2)
        yield Thread(f"{size}-{tpi}", "NPT", round(float(across) * IN, 6), IN / float(tpi), PIPE, _NPT_SOURCE, drill,
                     _NPT_DRILL_SOURCE, taper=1 / 16)


def _straight_pipe() -> Iterator[Thread]:
    for token in _G.split():
        size, major, tpi, minor, tolerance = token.split("|")
        least = float(minor)
        yield Thread(f"G {size}", "BSPP", float(major), IN / float(tpi), WHITWORTH, _G_SOURCE,
                     minor_fixed_mm=(least, round(least + float(tolerance), 3)))
