"""Random questions of random drawers of the sample crib: whatever is refused has its rule, its reason, both numbers
where it is a matter of sizes, and one change that would do or the word that none would.

`python -m tests.trials.refusals 2000 7`: so many questions, from that seed.
"""

from __future__ import annotations

import random
import re
import sys
from collections.abc import Iterator
from dataclasses import replace

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.errors import CribError
from crib.intake.lists.files import read_file
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice, Refusal
from crib.sample import folder, shop_settings
from crib.shop import Shop, from_json
from tests.spelt import spelt

SIZES = ("SZ", "FC", "NK", "RE", "G6", "G11", "HD3", "CN", "EN2", "EN4")
"""Rules that are a matter of sizes."""

_NUMBER = re.compile(r"(?<![\w.])\d*\.\d+")
_NOT_ON_RECORD = ("not known", "no drill")
_RANGES: dict[str, dict[str, tuple[float, float]]] = {
    "slot": {"width": (0.06, 1.2), "depth": (0.03, 1.5), "length": (0.5, 5)},
    "step": {"width": (0.02, 1.2), "depth": (0.02, 1.2), "length": (1, 5)},
    "slit": {"width": (0.01, 0.2), "depth": (0.05, 1.5), "length": (1, 4)},
    "undercut": {"width": (0.03, 0.4), "depth": (0.02, 0.5), "length": (1, 4)},
    "dovetail": {"depth": (0.1, 0.6), "width": (1, 3), "length": (1, 4)},
    "dovetail-slide": {"height": (0.1, 0.6), "width": (1, 3), "length": (1, 4)},
    "chamfer": {"size": (0.01, 0.4), "length": (1, 4)},
    "v-groove": {"width": (0.02, 1), "length": (1, 4)},
    "t-slot": {"throat": (0.2, 0.8), "depth": (0.3, 1.2), "head_width": (0.4, 1.5), "head_height": (0.06, 0.3),
               "length": (2, 6)},
    "hole": {"diameter": (0.05, 1.2), "depth": (0.1, 2)},
    "counterbore": {"hole": (0.1, 0.4), "diameter": (0.3, 0.8), "depth": (0.05, 0.5)},
    "tapped-hole": {"depth": (0.1, 1.5)},
}
_ANGLES = {"dovetail": ("45", "55", "60"), "dovetail-slide": ("45", "55", "60"), "chamfer": ("30", "45", "60"),
           "v-groove": ("60", "90", "120")}
_THREADS = ("1/4-20", "10-32", "M6", "M8", "3/8-16", "4-40")


def asked(rng: random.Random, cutters: tuple[Cutter, ...], shop: Shop) -> Iterator[tuple[str, Advice]]:
    """One question after another, with its answer; sizes that can't be together are passed over."""
    while True:
        kind = rng.choice(tuple(_RANGES))
        texts = {key: f"{rng.uniform(*span):.4f}" for key, span in _RANGES[kind].items()}
        texts |= {"angle": rng.choice(_ANGLES[kind])} if kind in _ANGLES else {}
        texts |= {"thread": rng.choice(_THREADS)} if kind == "tapped-hole" else {}
        texts |= {"ends": rng.choice(("open", "one", "closed"))} if kind == "slot" else {}
        some = rng.sample(cutters, rng.randint(1, 7))
        try:
            request = read_request(kind, texts, shop, "in")
            answer = advise(request, some, replace(shop, units=rng.choice(("in", "mm")))).advice
        except CribError:
            continue
        yield f"{kind} {texts} of {[cutter.label for cutter in some]}", answer


def faults(answer: Advice) -> Iterator[str]:
    """What a refusal lacks, and a no without a word or without one."""
    if not answer.plans and not answer.refused:
        yield "a no, and nothing that is refused"
    if answer.answer == "cannot" and not spelt(answer.says):
        yield "a no without a word"
    for one in answer.refused:
        said = f"{one.cutter.label}: {one.id} {spelt(one.says)} ({one.has_mm}, {one.needs_mm}; {spelt(one.fix)})"
        yield from (f"{fault}: {said}" for fault in _lacks(one))


def _lacks(refusal: Refusal) -> Iterator[str]:
    if not refusal.id or not spelt(refusal.says) or not spelt(refusal.fix):
        yield "no rule, no reason or no change"
    if spelt(refusal.says) != re.sub(r"\s{2,}|\{|\}", "", spelt(refusal.says)):
        yield "words that were not filled in"
    if refusal.answer != "cannot" or not refusal.id.startswith(SIZES):
        return
    if refusal.has_mm is None or refusal.needs_mm is None:
        if not any(words in spelt(refusal.says) for words in _NOT_ON_RECORD):
            yield "a matter of sizes without both numbers"
        return
    numbers = _NUMBER.findall(spelt(refusal.says))
    if abs(refusal.has_mm - refusal.needs_mm) < 1e-9 or (len(numbers) > 1 and len(set(numbers)) == 1):
        yield "two numbers that read alike"


def trial(count: int, seed: int) -> list[str]:
    """The faults of so many questions."""
    settings = shop_settings()
    reading = read_file(folder() / "cutters.json", settings["units"], settings["currency"])
    named = (one.cutter.but(label=label(one.cutter, "in")) for one in reading.taken)
    cutters = tuple(cutter.but(id=number) for number, cutter in enumerate(named, start=1))
    questions = asked(random.Random(seed), cutters, from_json(settings))
    found = []
    for _ in range(count):
        words, answer = next(questions)
        found += [f"{words}: {fault}" for fault in faults(answer)]
    return found


if __name__ == "__main__":
    every = trial(int(sys.argv[1]), int(sys.argv[2]))
    print("\n".join(every) or "no fault")
    sys.exit(bool(every))
