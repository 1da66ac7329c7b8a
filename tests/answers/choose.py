"""Which questions to ask: drawn from the generators that the trials and the benchmarks have, with more options added.
What is chosen is kept with the answers, so that it stays what it was."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping
from itertools import count, cycle, islice
from random import Random
from types import SimpleNamespace
from typing import Any

from tests.answers.asking import Answer, Crib, Question, asked
from tests.answers.cribs import SAMPLE, cribs, fitting
from tests.benchmarks.any_question import METALS, RELAX, any_question
from tests.benchmarks.tap import ASKED as TAPPED
from tests.trials import round_work, units

Words = tuple[str, ...]
Texts = dict[str, str]

KINDS = tuple(sorted({**units.SIZES, **units.TEXTS}))
ROUND = tuple(sorted(set(round_work.KINDS)))
USES = ("slide", "cover", "load", "locating", "clock", "sign", "lifting eye", "crane hooks")
LENGTHS: Mapping[str, Mapping[str, tuple[float, float]]] = {
    "slot": {"edge": (2, 20)}, "slit": {"edge": (2, 20)}, "t-slot": {"head_length": (60, 90), "entry_hole": (12, 18)},
    "dovetail": {"gib": (2, 5), "pin": (4, 8)}, "dovetail-slide": {"shoulder": (4, 15), "pin": (4, 8)},
    "undercut": {"height": (3, 20), "floor": (1, 10), "floor_out": (5, 40)}, "gib-screw-holes": {"thickness": (8, 15)},
}
"""Sizes of a kind that may be left out, which no other generator gives [mm]."""

FITTING: Mapping[str, Mapping[str, tuple[float, float]]] = {
    "dovetail": {"depth": (4.6, 7.6), "width": (28, 55)},
    "dovetail-slide": {"height": (4.6, 7.6), "width": (20, 40), "shoulder": (8, 16)},
    "counterbore": {"diameter": (14.0, 14.5), "hole": (5.42, 5.6), "depth": (1.5, 9)},
    "hole": {"diameter": (5, 12.7), "depth": (6, 40)}, "chamfer": {"size": (0.4, 3)}, "v-groove": {"width": (2, 8)},
    "tapped-hole": {"depth": (6, 14)},
}
"""Sizes that the cutters of the sample are about right for [mm]."""

CHOICES: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "chamfer": {"angle": ("30", "45", "60", "22.5")}, "t-slot": {"bolt": ("1/2", "M12", "3/8", "M10")},
    "hole": {"through": ("yes",), "finish": ("drilled", "reamed", "bored")},
    "tapped-hole": {"through": ("yes",), "class": ("2B", "3B", "6H", "none"),
                    "thread": ("1/4-20", "10-32", "M6x1", "3/8 whit", "2BA", "1/4-28", "1/4-20", "3/8-16")},
    "gib-screw-holes": {"direction": ("level", "square"), "class": ("2B", "6H"), "angle": ("45", "55", "60"),
                        "thread": ("1/4-28", "M6x1", "10-32")},
}
LIMIT = 4.0
"""Seconds of processor time that a question that is kept may take."""

QUICK, A_QUICK_ONE, PAGES = 40, 0.35, 60


def chosen(processes: int) -> tuple[dict[str, Crib], list[Question], list[Answer]]:
    """Cribs, questions and their answers; none that takes long, of each group as many as it is to have."""
    every = cribs()
    questions: list[Question] = []
    answers: list[Answer] = []
    for wanted, some in _groups():
        left, tried = wanted, 0
        while left and tried < 6 * wanted:
            batch = list(islice(some, max(left, 2 * processes)))
            tried += len(batch)
            if not batch:
                break
            for place, answer in sorted(asked(batch, every, processes, 4 * LIMIT), key=lambda one: one[0]):
                if left and answer.seconds < LIMIT and not _is_too_many(batch[place], answer, questions, answers):
                    questions.append(batch[place])
                    answers.append(answer)
                    left -= 1
    return every, _with_quick_ones(questions, answers), answers


def _is_too_many(question: Question, answer: Answer, questions: list[Question], answers: list[Answer]) -> bool:
    """Whether it is one already, one more that can't be read, of which a twentieth is enough, or of a kind one more
    without a plan."""
    status, sort = answer.steps[-1][0], question.steps[-1][:2]
    if question in questions or (status == 2 and sum(one.steps[-1][0] == 2 for one in answers) > len(answers) / 20 + 4):
        return True
    same = [one.steps[-1][0] for place, one in enumerate(answers) if questions[place].steps[-1][:2] == sort]
    return sort[0] == "make" and status == 1 and same.count(1) > 1.2 * same.count(0) + 8


def _with_quick_ones(questions: list[Question], answers: list[Answer]) -> list[Question]:
    """The questions, those marked that are asked every time: quick ones, as evenly out of all as can be."""
    quick = [place for place, answer in enumerate(answers) if answer.seconds < A_QUICK_ONE]
    taken = set(quick[::max(1, len(quick) // QUICK)][:QUICK])
    return [Question(one.crib, one.steps, one.pages, place in taken) for place, one in enumerate(questions)]


def _groups() -> Iterator[tuple[int, Iterator[Question]]]:
    """How many of each sort, and candidates for them."""
    yield 8, _of_the_sample()
    for number, name in enumerate(("sample", "inch", "metric", "unknown", "few")):
        yield 54 if name != "metric" else 36, _makes(name, Random(number))
        yield 24, _makes(name, Random(10 + number), ROUND)
    yield 60, _fitted()
    yield 24, (one for one in _fitted() if "closed" in one.steps[0])
    yield PAGES, _pages()
    yield 84, _worths(Random(21))
    yield 70, _taps(Random(22))
    yield 36, _gauges(Random(23))
    yield 40, iter(_FINDS)
    yield 34, iter(_OF_NOTES)
    yield 64, _after_questions(Random(24))


def _question(crib: str, *steps: Words, pages: Words = ()) -> Question:
    return Question(crib, steps, pages)


def _of_the_sample() -> Iterator[Question]:
    for place, one in enumerate(json.loads((SAMPLE / "questions.json").read_text(encoding="utf-8"))):
        words = ("make", *one["make"])
        yield _question("sample", (*words, "--refused", "all"))
        yield _question("few" if place % 2 else "unknown", (*words, "--relax"))


def _makes(crib: str, draw: Random, kinds: Words = KINDS) -> Iterator[Question]:
    """Kind after kind, from one generator or another."""
    owned = tuple(SimpleNamespace(diameter_mm=one.get("diameter_mm")) for one in json.loads(
        cribs()[crib].files["cutters.json"]) if one["kind"] in ("drill", "reamer", "counterbore"))
    for kind in cycle(kinds):
        typed = "mm" if crib == "metric" else "in"
        sources = ("round", "round", "units") if kind in ROUND else ("benchmark", "units", "units")
        words = _words(kind, draw, typed, draw.choice(sources), owned)
        more = draw.choice(((), (), ("--refused", "all"), ("--refused", "3"), ("--relax",)))
        yield _question(crib, ("make", *words, *more))


def _words(kind: str, draw: Random, typed: str, source: str, owned: tuple[Any, ...] = ()) -> Words:
    """The words of a question of a kind: its name and its options."""
    if source == "benchmark" and typed == "in":
        return tuple(word for word in any_question(draw, kind) if word != RELAX)
    if source == "round":
        return _typed(kind, round_work.question(draw, kind, owned))
    return _typed(kind, _more(kind, _drawn(kind, draw, typed), draw, typed))


def _drawn(kind: str, draw: Random, typed: str) -> Texts:
    """The texts of a question of a kind; only a length between closed ends has a tolerance."""
    texts = next(texts for name, texts in (units.question(draw, typed) for _ in count()) if name == kind)
    if "length" in texts and texts.get("ends") != "closed":
        texts["length"] = texts["length"].partition("±")[0]
    return texts


def _typed(kind: str, texts: Mapping[str, str]) -> Words:
    """The kind and its options; of a flag the name alone."""
    said = ((f"--{key.replace('_', '-')}", text) for key, text in texts.items() if (key, text) != ("through", "no"))
    return (kind, *(word for name, text in said for word in ((name,) if name == "--through" else (name, text))))


def _more(kind: str, texts: Texts, draw: Random, typed: str) -> Texts:
    """The texts with options added that the generator doesn't give."""
    texts = dict(texts)
    if draw.random() < 0.6:
        texts |= {key: units._typed(draw.uniform(*span), typed, draw) for key, span in FITTING.get(kind, {}).items()}
        texts |= {"angle": "60"} if kind in ("dovetail", "dovetail-slide") else {}
    for key, choices in CHOICES.get(kind, {}).items():
        if draw.random() < 0.5:
            texts[key] = draw.choice(choices)
    for key, (low, high) in LENGTHS.get(kind, {}).items():
        if draw.random() < 0.35:
            texts[key] = units._typed(draw.uniform(low, high), typed, draw).partition("±")[0]
    if kind in _INSTEAD and draw.random() < 0.4:
        texts[draw.choice([key for key in _INSTEAD[kind] if "pin" in texts or "pins" not in key])] = texts.pop("width")
    if "bolt" in texts:
        texts = {key: text for key, text in texts.items() if key in ("bolt", "material", "ends", "length", "hardness")}
    if texts.keys() & {"head_length", "entry_hole"} and draw.random() < 0.9:
        texts |= {"ends": "closed"}
    if kind not in ROUND and draw.random() < 0.4:
        texts |= _stands_beside(draw, typed)
    common = {"use": USES, "hours": ("1", "4", "10"), "mating": ("the gib", "a slide bar", "ball bearing"),
              "count": ("2", "6"), "hardness": ("30 HRC", "200 HB", "52 HRC"), "material": METALS}
    for key, values in common.items():
        if draw.random() < 0.22:
            texts[key] = draw.choice(values)
    return texts


_INSTEAD = {"dovetail": ("opening", "between_pins"), "dovetail-slide": ("top", "over_pins")}


def _stands_beside(draw: Random, typed: str) -> Texts:
    """A wall, metal under it, or what its corners may have."""
    def long(low: float, high: float) -> str:
        return units._typed(draw.uniform(low, high), typed, draw).partition("±")[0]

    return draw.choice((
        {"wall": f"{long(2, 40)}@{draw.choice(('', '-'))}{long(15, 70)}"}, {"below": long(1, 8)},
        {"floor_radius": long(0.2, 1.5)}, {"corner_relief": long(0.3, 1.5)}))


def _fitted() -> Iterator[Question]:
    """Exact fits of the metric crib."""
    for request, _ in fitting():
        sizes = {key: _banded(one) for key, one in request.sizes.items()}
        angles = {key: f"{one.deg:g}" for key, one in request.angles.items()}
        texts = {**sizes, **angles, "material": request.material, "ends": request.ends, "hours": f"{request.hours:g}"}
        yield _question("metric", ("make", *_typed(request.kind, texts)))


def _banded(size: Any) -> str:
    middle = size.nominal if size.lo <= size.nominal <= size.hi else size.mid
    above, below = round(size.hi - middle, 6), round(middle - size.lo, 6)
    return f"{middle:.6g}mm+{above:g}mm-{below:g}mm"


def _pages() -> Iterator[Question]:
    """Questions whose sizes have their units with them, so that they are the same in inches and in millimetres."""
    draw = Random(41)
    for kind, crib in zip(cycle(KINDS), cycle(("sample", "metric", "inch", "unknown", "few", "sample")), strict=False):
        texts = _more(kind, _drawn(kind, draw, "mm"), draw, "mm")
        said = {key: text if key in _NO_LENGTH else _with_units(text) for key, text in texts.items()}
        more = draw.choice((("--why",), ("--why", "--refused", "all"), (), ("--relax",)))
        yield _question(crib, ("make", *_typed(kind, said), *more), pages=("in", "mm"))


_NO_LENGTH = ("material", "angle", "thread", "number", "class", "direction", "through", "finish", "use", "mating",
              "bolt", "hours", "count", "hardness", "ends")


def _with_units(text: str) -> str:
    """Every length of a text with mm behind it.

    >>> _with_units("12.5±0.02"), _with_units("20@-30.5")
    ('12.5mm±0.02mm', '20mm@-30.5mm')
    """
    return re.sub(r"\d+(\.\d+)?(?!\d|\.|mm)", lambda found: f"{found.group()}mm", text)


def _worths(draw: Random) -> Iterator[Question]:
    terms: tuple[Words, ...] = (
        (), ("--price", "12"), ("--price", "48+9", "--uses", "3"), ("--uses", "6", "--accept"),
        ("--price", "30", "--shipping", "6", "--wait", "9", "--deadline", "5"),
        ("--price", "22", "--wait", "9", "--day-cost", "10"),
        ("--cutter", "7/8 x 3/16 keyseat cutter", "--price", "24"),
        ("--cutter", "1/2 4fl end mill", "--price", "15", "--uses", "2"), ("--price", "0"), ("--price", "twelve"))
    for place, one in enumerate(json.loads((SAMPLE / "questions.json").read_text(encoding="utf-8"))):
        yield _question("sample", ("worth", *one["make"], *terms[place]), pages=("in",) if place < 2 else ())
    for kind in cycle(KINDS):
        crib = draw.choice(("sample", "inch", "metric", "unknown", "few", "few"))
        words = _words(kind, draw, "mm" if crib == "metric" else "in", "units")
        yield _question(crib, ("worth", *words, *draw.choice(terms)))


def _taps(draw: Random) -> Iterator[Question]:
    threads = ("10-32", "1/4-20", "quarter twenty", "M6x1", "M8", "0BA", "3/8 whit", "1/2-13", "5/16-18", "4-40", "M5",
               "1/8 npt", "10-24", "3/8-16", "1/4-28", "6-32", "M10x1.25", "9-99")
    for given in TAPPED:
        if given[0] == "tap":
            yield _question("sample", tuple(word for word in given if word != "--json"))
    yield _question("inch", ("tap", "--check-all", "--material", "brass"), pages=("in", "mm"))
    yield _question("few", ("tap", "--check-all"))
    for thread in cycle(threads):
        crib = draw.choice(("sample", "sample", "inch", "metric", "unknown", "few"))
        words = ["tap", *thread.split()]
        for option, values in {
            "--depth": ("1/2in", "12mm", ".3in"), "--below": ("1/4in", "3mm"), "--class": ("2B", "3B", "6H", "none"),
            "--material": ("grey iron", "1018", "304", "6061", "brass", "tool steel"),
            "--drill": ("#7", "5mm", "13/64", "8"), "--form": ("cutting", "forming"),
            "--use": ("load", "steam pipe of cast iron", "cover"), "--mating": ("a stud",),
        }.items():
            words += [option, draw.choice(values)] if draw.random() < 0.3 else []
        words += ["--power"] if draw.random() < 0.2 else []
        words += ["--through"] if "--depth" in words and draw.random() < 0.5 else []
        yield _question(crib, tuple(words), pages=("in",) if draw.random() < 0.1 else ())


def _gauges(draw: Random) -> Iterator[Question]:
    kinds = ("tap", "drill", "end-mill", "reamer", "keyseat-cutter", "angle-cutter", None)
    for kind in cycle(kinds):
        diameter = draw.choice((draw.uniform(1, 26), draw.randint(4, 64) * 25.4 / 64 - 0.02))
        words = ["gauge", *(("--kind", kind) if kind else ()), "--diameter", f"{diameter:.3f}mm"]
        if kind in ("tap", None) and draw.random() < 0.7:
            words += draw.choice((["--tpi", "28"], ["--pitch", "1mm"], ["--tpi", "20", "--angle", "55"],
                                  ["--pitch", ".03125in"]))
        words += ["--width", draw.choice((".1875in", "3mm", ".248in"))] if kind == "keyseat-cutter" else []
        words += ["--angle", draw.choice(("45", "60", "59.5"))] if kind == "angle-cutter" else []
        yield _question(draw.choice(("sample", "metric", "few")), tuple(words))


_FINDS = [_question(crib, ("find", *words.split())) for crib in ("sample", "unknown", "metric", "inch") for words in (
    "", "keyseat", "keyseat about 5/8", "end mill 1/2", "what fits the 3/8 collet", "carbide", "hss end mil",
    "drill #7", "6mm", "reamer 3/8")]
_OF_NOTES = [
    _question("sample", ("price",)), _question("inch", ("price",)), _question("few", ("price",)),
    _question("sample", ("price", "21+5", "3/8 end mill", "--where", "swap table", "--on", "2024-01-05")),
    _question("metric", ("price", "21+5", "10mm end mill", "--on", "2024-01-05"), ("price",)),
    _question("sample", ("price", "--drop", "2"), ("price",)),
    _question("sample", ("price", "nothing", "3/8 end mill")),
    _question("sample", ("price", "0", "3/8 end mill")), _question("sample", ("price", "12")),
    _question("inch", ("friends",)), _question("sample", ("friends", "add", "the club", "7/8 x 3/16 keyseat cutter")),
    _question("sample", ("friends", "add", "the club", ".975 x .240 t-slot cutter"),
              ("worth", "t-slot", "--throat", "5/8+.002-0", "--depth", ".520", "--head-width", ".975", "--head-height",
               ".240", "--length", "6", "--material", "grey iron")),
    *(_question(crib, ("shop",)) for crib in ("sample", "inch", "metric", "unknown", "few")),
    _question("metric", ("shop", "--weights"), pages=("mm", "in")),
    *(_question(crib, ("check-up",)) for crib in ("sample", "inch", "unknown", "few")),
    *(_question("few", ("take-in", words)) for words in (
        "1/2 4 flute end mill 1/2 shk", "3/8 x 3/8 x 1 x 2-1/2 4fl cobalt", "605 keyseat reground .612", "#7 drill",
        "quarter twenty plug tap", "single angle 60 2-3/4 x 1/2 x 1 bore", "60 deg dovetail 3/4", "6-06")),
    _question("few", ("make", "pocket", "--width", "1")), _question("few", ("make", "slott")),
    _question("few", ("make", "slot", "--widht", "1")), _question("few", ("mak", "slot")),
]


def _after_questions(draw: Random) -> Iterator[Question]:
    """What the crib says of questions that it was asked."""
    ends: tuple[Callable[[], tuple[Words, ...]], ...] = (
        lambda: (("to-mic",),), lambda: (("to-mic", "--most", draw.choice("124")),), lambda: (("wish-list",),),
        lambda: (("wish-list", "--budget", draw.choice(("20", "60", "150"))),), lambda: (("asked",),),
        lambda: (("asked", draw.choice("12")),), lambda: (("now", "1", "dull"), ("asked", "1")),
        lambda: (("asked", "--forget", "1"), ("asked",)), lambda: (("result", "time", "95"),))
    yield _question("few", ("to-mic",))
    yield _question("few", ("wish-list",))
    yield _question("few", ("asked",))
    for place, end in enumerate(cycle(ends)):
        crib = ("unknown", "sample", "few", "inch", "unknown")[place % 5]
        makes = [("make", *_words(draw.choice(KINDS), draw, "in", "units")) for _ in range(draw.choice((1, 2, 3)))]
        yield _question(crib, *makes, *end(), pages=("in",) if place < 9 else ())
