"""Random questions of every kind, asked in millimetres and in inches, and what of their pages is in the wrong units.

    python -m tests.trials.units 400 7
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import replace
from random import Random

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.features import KINDS
from crib.findings.errors import CribError
from crib.pages.sheet import sheet
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop
from tests import test_sample_crib as sample
from tests.shown import shown

METALS = ("grey iron", "1018", "6061", "304", "brass", "acetal", "bronze", "O1", "4140")
WRONG = {  # a drill or a shank that was made in millimetres is called so on an inch page, to a tenth
    "mm": re.compile(r"(?<![\d.])\.\d|\binch(?:es)?\b|\d in\b(?! (?:150|pass|pass\w+|the|CUTTER)\b)|\bthou\b|in/min|"
                     r"s/in\b|\bft\b|\bhp\b|\blb\b|\d\s?\"|-lb\b"),
    "in": re.compile(r"(?<!\d )mm\b|mm/min|\d\.\d\d+ mm\b|\bcm\b|N m\b|N·m|\bkW\b|"
                     r"(?<![\d.])0\.\d{3}(?! to 1\b)|\bmillimet"),
}
SIZES: Mapping[str, tuple[tuple[str, float, float], ...]] = {
    "slot": (("width", 5, 20), ("depth", 2, 20), ("length", 40, 200)),
    "t-slot": (("throat", 8, 17), ("depth", 10, 16), ("head_width", 18, 26), ("head_height", 4, 7),
               ("length", 60, 200)),
    "step": (("width", 4, 25), ("depth", 2, 14), ("length", 40, 200)),
    "slit": (("width", 0.8, 4), ("depth", 3, 16), ("length", 20, 100)),
    "undercut": (("width", 2, 5), ("depth", 1, 4), ("length", 30, 100)),
    "hole": (("diameter", 3, 14), ("depth", 5, 40)),
    "counterbore": (("diameter", 8, 16), ("depth", 3, 8), ("hole", 4, 7)),
    "dovetail": (("angle", 45, 60), ("depth", 5, 10), ("width", 30, 50), ("length", 60, 200)),
    "dovetail-slide": (("angle", 45, 60), ("height", 5, 10), ("width", 20, 40), ("length", 60, 200)),
    "chamfer": (("size", 0.5, 4), ("length", 40, 200)),
    "v-groove": (("angle", 60, 90), ("width", 4, 12), ("length", 40, 200)),
}
TEXTS = {"tapped-hole": {"thread": ("M6", "M8x1", "1/4-20", "10-32"), "depth": ("9", "12")},
         "gib-screw-holes": {"thread": ("M5", "M6"), "number": ("4",), "length": ("150",), "angle": ("60", "80"),
                             "height": ("10",), "gib": ("4",), "nut": ("11",)}}


def question(draw: Random, units: str) -> tuple[str, dict[str, str]]:
    """A kind and its texts, sizes in the units."""
    kind = draw.choice(sorted({**SIZES, **TEXTS}))
    texts = {"material": draw.choice(METALS)}
    for key, low, high in SIZES.get(kind, ()):
        value = draw.choice((low, high, draw.uniform(low, high)))
        texts[key] = f"{round(value / 5) * 5:g}" if key == "angle" else _typed(value, units, draw)
    for key, choices in TEXTS.get(kind, {}).items():
        texts[key] = draw.choice(choices) + ("mm" if key not in ("thread", "number", "angle") and units == "in" else "")
    if kind in SIZES and "length" in texts:
        if "closed" in KINDS[kind].ends and draw.random() < 0.3:
            texts["ends"] = draw.choice(("one", "closed"))
        elif draw.random() < 0.2:
            texts.pop("length")
    if draw.random() < 0.2:
        texts["hardness"] = "30 HRC"
    return kind, texts


def _typed(mm: float, units: str, draw: Random) -> str:
    band = draw.choice((0.0, 0.02, 0.1, 0.3))
    if units == "mm":
        return f"{round(mm, 1):g}" + (f"±{band:g}" if band else "")
    return f"{mm / 25.4:.3f}".lstrip("0") + (f"±{f'{band / 25.4:.4f}'.lstrip('0')}" if band else "")


def shop_of(draw: Random, units: str) -> Shop:
    """A bench in the units, with and without a readout, a motor and an edge finder on record."""
    shop = Shop(units=units, collets_mm=(6.35, 9.525, 12.7, 19.05), spindle_rpm=(80, 135, 210, 325, 660, 1115, 1750),
                dro=draw.random() < 0.5, stiffness=draw.choice(("bench", "knee", "heavy")),
                backlash_mm=draw.choice((0, 0.2, 0.5)))
    return replace(shop, motor_kw=0.05) if draw.random() < 0.1 else shop


def cutters_in(units: str) -> list[Cutter]:
    """The sample crib as its labels are in the units."""
    return [cutter.but(label=label(cutter, units)) for cutter in sample.CUTTERS]


def pages(count: int, seed: int, units: str) -> Iterator[tuple[str, dict[str, str], str]]:
    """So many answered questions, each with its page in one line."""
    draw, cutters = Random(f"{units} {seed}"), cutters_in(units)
    while count:
        kind, texts = question(draw, units)
        shop = shop_of(draw, units)
        mine = [cutter for cutter in cutters if draw.random() < 0.7]
        try:
            found = advise(read_request(kind, texts, shop, units), mine, shop)
        except CribError:
            continue
        count -= 1
        yield kind, texts, " ".join(" ".join(shown(sheet(found), units)).split())


def wrong(page: str, units: str, labels: list[str]) -> list[str]:
    """What of a page is in the other units, with what stands about it; the cutters' own names may be stamped so."""
    for name in labels:
        page = page.replace(name, "CUTTER")
    return [page[max(0, at.start() - 45): at.end() + 25] for at in WRONG[units].finditer(page)]


def main(count: int = 200, seed: int = 1) -> int:
    """Print every fault once with the question that shows it; how many there were."""
    seen: dict[str, str] = {}
    for units in WRONG:
        labels = sorted({cutter.label for cutter in cutters_in(units)}, key=len, reverse=True)
        for kind, texts, page in pages(count, seed, units):
            for fault in wrong(page, units, labels):
                seen.setdefault(f"{units} {re.sub('[0-9]', '#', fault)}", f"{kind} {texts}: … {fault}")
    for said in seen.values():
        print(said)
    return len(seen)


if __name__ == "__main__":
    print(main(*map(int, sys.argv[1:])), "faults")
