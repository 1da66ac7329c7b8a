"""An answer is one screen: what sets the machine, what to mind, and where the rest is."""

from __future__ import annotations

import re
import shlex
from functools import cached_property
from pathlib import Path

import pytest

from crib.cli.app import run
from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.findings.message import Measure, joined
from crib.pages.answer import page
from crib.pages.blocks import Beside, Block
from crib.pages.first_screen import MOST_TO_MIND, to_mind
from crib.pages.more import More
from crib.pages.sheet import sheet
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.render.terminal import lines as terminal
from crib.render.words import words
from crib.shop import Shop
from crib.store import open_crib
from tests.shown import shown
from tests.trials import screens

README = Path(__file__).parents[2] / "README.md"
SCREEN = 40
BESIDE_PASSES = 27
"""Lines of a page beside the passes, where those alone are more than fit on a screen with the rest."""

_MORE = ("--help", "--relax", "--why", "--all", "--steps", "--others", "--refused", "--json", "...")


def asked_in_the_readme() -> list[tuple[str, ...]]:
    """Every question of the README, without its crib."""
    text = README.read_text(encoding="utf-8").replace("\\\n", " ")
    lines = re.findall(r"^\$ crib (make .*)$", text, re.MULTILINE)
    every = [tuple(shlex.split(re.sub(r" --crib \S+", "", line))) for line in lines]
    return [one for one in every if not set(one) & set(_MORE)]


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("bench") / "bench.db"
    run(("demo", "--into", str(path)))
    return path


def answered(bench: Path, kind: str, texts: dict[str, str]) -> Answered:
    with open_crib(str(bench)) as crib:
        there = crib.holdings()
    return advise(read_request(kind, texts, there.shop, "in"), there.cutters, there.shop)


class Shown:
    """An answer and its pages: each is made once for all that is looked at in it."""

    def __init__(self, found: Answered) -> None:
        self.found, self.advice = found, found.advice
        self._pages: dict[tuple[int, bool], list[str]] = {}
        self._wholes: dict[tuple[int, bool], list[str]] = {}

    @cached_property
    def blocks(self) -> list[Block]:
        """The first screen, without units or a width."""
        return list(sheet(self.found, 6, None, ()))

    @cached_property
    def _all(self) -> list[Block]:
        return list(sheet(self.found, None))

    def page(self, width: int = 100, lines: bool = True) -> list[str]:
        """The first screen so wide, with lines that are drawn or without."""
        key = width, lines
        if key not in self._pages:
            self._pages[key] = terminal.lines(self.blocks, "in", width, lines, most=SCREEN)
        return self._pages[key]

    def whole(self, width: int = 100, lines: bool = True) -> list[str]:
        """All of it."""
        key = width, lines
        if key not in self._wholes:
            self._wholes[key] = terminal.lines(self._all, "in", width, lines)
        return self._wholes[key]


@pytest.mark.parametrize("words_", asked_in_the_readme(), ids=lambda one: " ".join(one[1:4]))
def test_the_readmes_questions_take_a_screen(bench: Path, words_: tuple[str, ...], monkeypatch: pytest.MonkeyPatch,
                                             capsys: pytest.CaptureFixture[str]) -> None:
    """A T-slot scrolled by in 112 lines, and its cutters were gone when they ended."""
    monkeypatch.setenv("COLUMNS", "100")
    capsys.readouterr()
    run((*words_, "--crib", str(bench)))
    rows = capsys.readouterr().out.splitlines()
    assert len(rows) <= SCREEN and all(len(row) <= 100 for row in rows), "\n".join(rows)


def test_so_do_questions_on_record() -> None:
    """In inches and in millimetres; what takes more does so for its passes alone."""
    for question, units, rows in screens.screens(screens.questions(12, seed=7)):
        most = max(SCREEN, BESIDE_PASSES + screens.passes_of(rows))
        assert len(rows) <= most, (units, question, "\n".join(rows))


@pytest.fixture(scope="module")
def every(bench: Path) -> list[Shown]:
    """An answer of every kind of feature, by its own example."""
    return [Shown(answered(bench, kind.name, dict(kind.example))) for kind in KINDS.values() if kind.example]


@pytest.fixture(scope="module")
def ended(bench: Path) -> dict[str, Shown]:
    """The same of each way in which a kind may end."""
    asked = {f"{kind.name}, {ends}": (kind, ends) for kind in KINDS.values() if kind.example for ends in kind.ends}
    between = {"length": "4"}
    return {name: Shown(answered(bench, kind.name, (between if ends != "open" and len(kind.ends) > 1 else {}) | {
        "ends": ends} | dict(kind.example))) for name, (kind, ends) in asked.items()}


@pytest.mark.parametrize("units", ["in", "mm"])
def test_every_kind_takes_a_screen(ended: dict[str, Shown], units: str) -> None:
    """A dovetail's slide took 43 lines, and its verdict was gone when its cautions were read."""
    for name, found in ended.items():
        rows = terminal.lines(found.blocks, units, 100, most=SCREEN)
        assert len(rows) <= SCREEN, (name, units, "\n".join(rows))


@pytest.mark.parametrize("width", [60, 80, 100])
def test_what_sets_the_machine_never_gives_way(ended: dict[str, Shown], width: int) -> None:
    """However little room there is: the verdict, the cutters and their places, all that isn't spare beside the section,
    every setting, cautions and stops."""
    for name, found in ended.items():
        if not found.advice.plans:
            continue
        plan, blocks = found.advice.plans[0], found.blocks
        rows = terminal.lines(blocks, "in", width, most=1)
        text = " ".join(re.sub(r"[^\w.;:+±∓]+", " ", " ".join(rows)).split())
        assert rows[0].startswith("Answer: "), name
        assert all(f"no. {cutter.id} " in text for cutter in plan.cutters), name
        wanted = {word for one in plan.passes for word in words(
            joined(" ", (Measure(one.dial_x_mm) if one.direction != "axial" else "", Measure(one.dial_z_mm))), "in"
        ).replace("-", "").split()}
        assert wanted <= {word.strip("+±∓") for word in text.split()}, (name, wanted)
        told = [*to_mind(found.advice, plan), *(one for block in blocks if isinstance(block, Beside)
                                                for one in block.text)]
        for said in told:
            if not said.spare:
                assert f"{words(said.label, 'in')}:" in "\n".join(rows), (name, said)
        stops = sum(bool(one.stops_mm) for one in plan.passes)
        assert not stops or "stop spindle off brush the chips out" in text, name


@pytest.mark.parametrize("width", [60, 80, 100])
def test_what_keeps_hands_and_eyes_whole_is_never_left_out(every: list[Shown], width: int) -> None:
    """However narrow the terminal is; the remarks beside it are four at the most, the gravest first."""
    for found in every:
        text = " ".join(" ".join(found.page(width)).split())
        stops = [one for one in found.advice.plans[0].passes if one.stops_mm] if found.advice.plans else []
        assert not stops or "stop, spindle off, brush the chips out: packed, they snap the cutter" in text
        for caution in found.advice.cautions if found.advice.plans else ():
            said = words(caution, "in")[1:].rstrip(".")
            assert (said in text) is not (bool(stops) and said.startswith("hips ")), "chips are told of in one place"
        if found.advice.plans:
            told = to_mind(found.advice, found.advice.plans[0])
            labels = [one.label for one in told]
            assert len(told) <= max(MOST_TO_MIND, len(found.advice.cautions) + 1) or "STOP" in labels
            order = ["STOP", "Caution", "Take care", "Mind", "Note"]
            assert labels == sorted(labels, key=lambda label: order.index(str(label)))


def test_the_last_line_says_where_the_rest_is_and_the_rest_is_there(every: list[Shown]) -> None:
    for found in every:
        if found.advice.answer == "refer":
            continue
        tail = " ".join(" ".join(found.page()).rpartition("More: ")[2].split())
        assert tail.endswith("--all")
        whole = found.whole()
        named = {More(name) for name in re.findall(r"--(\w+)", tail) if name != "all"}
        heads = {More.STEPS: "Step by step", More.WHY: "Assumed:", More.REFUSED: "Not with these", More.OTHERS: ""}
        for one in named:
            if one is More.WHY and not (found.advice.plans or found.advice.assumed):
                continue
            assert any(row.startswith(heads[one]) for row in whole), (one, whole)


@pytest.mark.parametrize("lines", [True, False])
@pytest.mark.parametrize("width", [60, 80, 100])
def test_no_line_of_any_kind_is_too_long(every: list[Shown], width: int, lines: bool) -> None:
    for found in every:
        for rows in (found.page(width, lines), found.whole(width, lines)):
            assert all(len(row) <= width for row in rows), max(rows, key=len)


def test_an_answer_that_is_no_says_first_what_would_do(bench: Path) -> None:
    texts = {"throat": "3/8+.003-0", "depth": ".450", "head_width": ".625", "head_height": ".170",
             "material": "grey iron"}
    rows = Shown(answered(bench, "t-slot", texts)).page()
    assert rows[0].startswith("Answer: measure first") and rows[2] == "Measure first" and len(rows) <= SCREEN


def test_a_steel_that_is_not_on_record_is_told_whatever_room_there_is() -> None:
    """Every speed is half of what it may be: where two cautions and two remarks came first it wasn't said. Common
    practice, no source."""
    shop = Shop(spindle_rpm=(80, 325, 660, 1115), collets_mm=(9.525, 12.7), unknown_steel="unknown")
    same = {"flutes": 2, "length_of_cut_mm": 25.0, "overall_length_mm": 70.0, "condition": "sharp",
            "centre_cutting": True}
    unmarked = Cutter(1, "end-mill", "3/8 mill", diameter_mm=9.525, shank_mm=9.525, **same)  # type: ignore[arg-type]
    asked = read_request("slot", {"width": "3/8", "depth": "1/4", "material": "6061"}, shop, "in")

    def told(*cutters: Cutter) -> str:
        return " ".join(" ".join(shown(page(advise(asked, cutters, shop).advice))).split())

    assert "Steel: not on record: run half as fast as HSS; if it is, crib shop --unknown-steel hss" in told(unmarked)
    assert "Steel:" not in told(unmarked.but(material="hss"))
