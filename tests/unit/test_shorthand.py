"""Shop shorthand read as a person would: what is sure is taken in, what isn't is asked, and nothing is guessed."""

from __future__ import annotations

import json
import shutil
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from crib.intake.shorthand import Shop, read_line
from crib.intake.talk.session import Session
from crib.store import open_crib
from tests.shop_talk import Case, cases
from tests.shop_talk import judged as shop_talk_judged
from tests.shorthand import DATA, LINES, differences, judged, report


def data(name: str) -> list[dict[str, Any]]:
    lines: list[dict[str, Any]] = json.loads((DATA / name).read_text(encoding="utf-8"))
    return lines


@pytest.fixture(scope="session")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty crib, to be copied."""
    path = tmp_path_factory.mktemp("crib") / "empty.db"
    open_crib(str(path), create=True).close()
    return path


@pytest.mark.parametrize("line", LINES, ids=lambda line: str(line["no"]))
def test_a_line_is_read_as_expected(line: dict[str, Any], empty: Path) -> None:
    found = judged(line, empty)
    assert found.verdict in ("read", "asked"), found.differs


def test_no_line_is_read_wrongly() -> None:
    """The shares, printed; wrong must be none."""
    counts, said = report(LINES)
    shares = ", ".join(f"{verdict} {counts[verdict]}" for verdict in ("read", "asked", "over-asked", "wrong"))
    print(f"{len(LINES)} lines: {shares}")
    assert len(LINES) == 131
    assert counts["wrong"] == 0, said
    assert counts["over-asked"] == 0, said


@pytest.mark.parametrize("line", data("misspellings.json") + data("pitfalls.json"), ids=lambda line: line["said"])
def test_misspellings_are_taken_and_pitfalls_asked_about(line: dict[str, Any], empty: Path, tmp_path: Path) -> None:
    path = shutil.copy(empty, tmp_path / "crib.db")
    with open_crib(str(path)) as crib:
        outcome = Session(crib, Shop(line.get("units", "in"))).say(line["said"])
    assert not differences(line, outcome), line.get("about")
    assert bool(outcome.asks) == bool(line.get("asks")), outcome.says


@pytest.mark.parametrize("line", [
    "dovetail cutter 20 mm 60 degrees height 8 mm shank 10 mm", "20 mm dovetail cutter 60 deg 8 mm height 10 mm shank",
    "20 mm dovetail cutter, height 8 mm, shank 10 mm, 60 deg",
    "dovetail cutter height 8 mm, 20 mm dia, 60 deg, 10 mm shank",
])
def test_a_height_is_a_height_before_its_size_and_behind_it(line: str) -> None:
    """`height` was read as a slip for `high`, which stands behind its size alone: the diameter became the height."""
    [taken] = read_line(line, Shop("in")).taken
    one = taken.cutter
    assert (one.diameter_mm, one.face_mm, one.shank_mm, one.angle_deg) == (20.0, 8.0, 10.0, 60.0)


@pytest.mark.parametrize("line", [
    "1/2 grooving bar 1/16 wide .1 out", "grooving bar 1/2 x 1/16, tooth out .1", ".1 out 1/2 grooving bar 1/16 wide",
    "grooving bar 1/2, 1/16 wide, tooth sticks .1 out", "1/2 internal grooving bar, 1/16 tooth, standing out .1",
])
def test_how_far_a_tooth_stands_out_is_no_width(line: str) -> None:
    """`.1 out` of a grooving bar was its tooth's width."""
    [taken] = read_line(line, Shop("in")).taken
    one = taken.cutter
    assert (one.diameter_mm, one.face_mm, one.length_of_cut_mm) == pytest.approx((12.7, 1.5875, 2.54))


def test_a_bar_or_its_tooth_is_asked_or_kept_aside() -> None:
    """1/16 may be a bar or a tooth; a bar of 1/16 bears no tooth that stands .1 out."""
    [taken] = read_line("1/16 grooving bar 1/4 shank", Shop("in")).taken
    assert any("width of its tooth?" in one for one in taken.cutter.questions)
    [taken] = read_line("1/2 grooving bar 1/2 shank", Shop("in")).taken
    assert not any("width of its tooth?" in one for one in taken.cutter.questions)
    held = read_line("1/16 grooving bar 1/4 shank .1 out", Shop("in"))
    assert not held.taken and "no tooth stands .100 out of a bar of 1/16" in held.why


@pytest.mark.parametrize("size", ["#7", "#9", "13/64", ".201", "M6", "M8", "8mm", "5/8", ".625"])
def test_a_size_is_never_taken_for_another(size: str) -> None:
    """Words that are alike are read as one another; sizes aren't."""
    near = {"#7": "#1", "M6": "M8", "8mm": "3mm", "5/8": "5/6"}.get(size, size)
    one, other = (read_line(f"{text} {'tap' if text.startswith('M') else 'drill'}", Shop()) for text in (size, near))
    if size != near and one.taken and other.taken:
        assert one.taken[0].cutter != other.taken[0].cutter


def test_a_line_that_is_too_long_is_held_back() -> None:
    line = read_line("1/2 end mill " * 200, Shop())
    assert not line.taken and "characters long" in line.why


def test_undo_and_corrections(empty: Path, tmp_path: Path) -> None:
    path = shutil.copy(empty, tmp_path / "crib.db")
    with open_crib(str(path)) as crib:
        session = Session(crib, Shop(), joins=True)
        [first] = session.say("1/4 2fl em").taken
        [changed] = session.say("that's .248 actually").amended
        assert (changed.id, round((changed.diameter_mm or 0) / 25.4, 3)) == (first.id, 0.248)
        session.say("undo")
        assert crib.cutter(first.id).diameter_mm == 6.35
        held = session.say(".187 2fl").held
        assert held is not None and crib.held_back()
        [joined] = session.say("end mill").taken
        assert (joined.kind, joined.flutes, crib.held_back()) == ("end-mill", 2, [])
        session.say("undo")
        assert [line.text for line in crib.held_back()] == [".187 2fl"]
        assert session.say("no wait metric").held is not None


def test_answers_to_right_are_no_cutters(empty: Path, tmp_path: Path) -> None:
    """`y` was held back as a cutter that can't be read, and `no` as well."""
    path = shutil.copy(empty, tmp_path / "crib.db")
    with open_crib(str(path)) as crib:
        session = Session(crib, Shop(), joins=True)
        for answer in ("y", "Yes", "ok"):
            session.say("3/8 2fl em")
            assert session.say(answer).is_done
        assert (session.tally(), crib.held_back()) == ((3, 0), [])
        for answer in ("no", "n"):
            assert session.say(answer).says == "taken back: 3/8 2fl em"
        assert session.tally() == (1, 0)


def test_a_whole_line_is_no_answer_to_the_one_before(empty: Path, tmp_path: Path) -> None:
    """A held back line took the next one in, though that was one of its own."""
    path = shutil.copy(empty, tmp_path / "crib.db")
    with open_crib(str(path)) as crib:
        session = Session(crib, Shop(), joins=True)
        assert session.say(".187 2fl").held and session.say("2 3/8 end mills").held
        assert [line.text for line in crib.held_back()] == [".187 2fl", "2 3/8 end mills"]


def test_the_tally_is_what_is_in_the_crib(empty: Path, tmp_path: Path) -> None:
    """A line that was put right and held back again had a new number, and the next undo didn't find it."""
    path = shutil.copy(empty, tmp_path / "crib.db")
    with open_crib(str(path)) as crib:
        session = Session(crib, Shop(), joins=True)
        session.say(".187 2fl")
        session.say("end mill")
        assert session.tally() == (1, 0)
        session.say("undo")
        assert session.tally() == (0, 1)
        session.say("undo")
        assert (session.tally(), crib.held_back()) == ((0, 0), [])
        session.say("number drills 1-60, #29 missing")
        assert session.tally() == (59, 0)


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.said)
def test_what_a_shop_says_is_read_or_asked_about(case: Case) -> None:
    """Lines of any habit: what is clear is read, what is not is asked, and nothing is wrong in silence."""
    verdict, differs = shop_talk_judged(case)
    assert verdict in ("read", "asked"), differs


def test_a_flank_of_no_angle_is_told() -> None:
    """It was divided by before anybody looked whether it can be."""
    assert read_line("3/4 dovetail cutter 0 degrees 1/4 face", Shop()).why == "an angle of 0 degrees can't be ground"


@pytest.mark.parametrize("line", [
    "{kind} {across} x {face} {label} {other}", "{across} x {face} {kind} {label} {other}",
    "{kind} {across} by {face} {label} is {other}, drawer B2", "{kind} {across}x{face} {label} {other} hss",
    "{kind} {across} x {face} {other} {label}", "{kind} {across} x {face} x {other} {label}",
])
@pytest.mark.parametrize(("kind", "label", "key", "other"), [
    ("keyseat cutter", "shank", "shank_mm", "1/2"), ("keyseat cutter", "reach", "reach_mm", "1"),
    ("t slot cutter", "shank", "shank_mm", "1/2"), ("dovetail cutter 60 deg", "shank", "shank_mm", "1/2"),
    ("side cutter", "bore", "bore_mm", "1"), ("slitting saw", "bore", "bore_mm", "1"),
    ("slitting saw", "arbor", "bore_mm", "1"), ("angle cutter 60 deg", "bore", "bore_mm", "1"),
])
def test_of_two_sizes_joined_by_an_x_the_second_stays_the_face(
        line: str, kind: str, label: str, key: str, other: str) -> None:
    """`keyseat 5/8 x 3/16 shank 1/2` became a cutter 1/2 thick on a 3/16 shank, and `saw 3 x 1/16 bore 1` a saw an inch
    thick with a bore of 1/16, without a question: a label took the size before it, whatever that was joined to."""
    across, face = ("3", "1/16") if key == "bore_mm" else ("5/8", "3/16")
    [taken] = read_line(line.format(kind=kind, across=across, face=face, label=label, other=other), Shop("in")).taken
    one = taken.cutter
    assert (one.diameter_mm, one.face_mm, getattr(one, key)) == pytest.approx(
        [float(Fraction(size)) * 25.4 for size in (across, face, other)])


@pytest.mark.parametrize(("line", "units", "sizes"), [
    ("end mill 1/2 x 1 shank 3/8", "in", (0.5, 0.375, 1.0)),
    ("1/2 x 1-1/4 end mill shank 1/2", "in", (0.5, 0.5, 1.25)),
    ("end mill 1/4 x 3/4 shank 3/8 4fl", "in", (0.25, 0.375, 0.75)),
    ("end mill 10 x 25 shank 12", "mm", (10.0, 12.0, 25.0)),
    ("3/8 x 3/8 shank 1 loc 2-1/2 oal end mill", "in", (0.375, 0.375, 1.0)),
    ("end mill 1/2 x 3/8 shank x 1", "in", (0.5, 0.375, 1.0)),
])
def test_what_is_no_shank_isnt_read_as_one(line: str, units: str, sizes: tuple[float, float, float]) -> None:
    """`end mill 1/2 x 1 shank 3/8` was held to stand on a 1 in shank and to cut 3/8 deep."""
    [taken] = read_line(line, Shop(units)).taken
    one, inch = taken.cutter, 25.4 if units == "in" else 1.0
    assert (one.diameter_mm, one.shank_mm, one.length_of_cut_mm) == pytest.approx([size * inch for size in sizes])


def test_a_bore_is_smaller_than_what_it_is_in() -> None:
    """`face mill 50 bore 22` was held back for a bore of 50."""
    [taken] = read_line("face mill 50 bore 22", Shop("mm")).taken
    assert (taken.cutter.diameter_mm, taken.cutter.bore_mm) == (50.0, 22.0)


@pytest.mark.parametrize(("line", "tip"), [
    ("1/2 spot drill 90 tip 0", 0.0), ("90 chamfer 1/2 4fl tip .000", 0.0), ("1/2 spot drill 90 tip .03", 0.762),
])
def test_a_sharp_point_has_a_tip_of_nought(line: str, tip: float) -> None:
    """`tip 0` was asked about as no size at all, though just that is asked for: 0 where it is sharp."""
    [taken] = read_line(line, Shop("in")).taken
    assert taken.cutter.tip_mm == pytest.approx(tip) and not any("tip" in asked for asked in taken.cutter.questions)


@pytest.mark.parametrize(("line", "said"), [
    ("3/16 DE end mill 3/8 shank 4fl hss chipped", ", chipped;"),
    ("3/16 DE end mill 3/8 shank 4fl hss, one end dull", ", one end dull;"),
])
def test_what_holds_of_a_double_ender_isnt_said_of_each_end_again(line: str, said: str, empty: Path, tmp_path: Path
                                                                  ) -> None:
    """One whose ends are both chipped was confirmed as `chipped, one end chipped, one end chipped`."""
    with open_crib(str(shutil.copy(empty, tmp_path / "crib.db"))) as crib:
        [outcome] = [Session(crib, Shop("in")).say(line)]
    assert said in outcome.says and outcome.says.count(said.split()[-1].strip(";,")) == 1


@pytest.mark.parametrize(("line", "units", "held"), [
    ("1/2 end mill measured 12.68", "in", True), ("1/4 drill miked 6.34", "in", True),
    ("12.7 mm end mill measured .4995 mm", "mm", True), ("1/2 end mill measured .4985", "in", False),
    ("1/2 end mill measured 12.68 mm", "in", False), ("12 mm end mill measured 11.95", "mm", False),
])
def test_a_measured_size_in_the_other_unit_is_asked_about(line: str, units: str, held: bool) -> None:
    """`1/2 end mill measured 12.7`, off a metric caliper, was taken in as twelve inches across."""
    read = read_line(line, Shop(units))
    assert bool(read.taken) is not held and ("is that in" in read.why) is held


def test_a_correction_in_the_other_unit_is_asked_about(empty: Path, tmp_path: Path) -> None:
    """`that's 12.7 actually` of a half inch mill made it measure 12.700 without a word; what was said is kept, and
    asked."""
    with open_crib(str(shutil.copy(empty, tmp_path / "crib.db"))) as crib:
        session = Session(crib, Shop("in"))
        session.say("1/2 end mill")
        session.say("that's 12.7 actually")
        [cutter] = crib.cutters()
    assert any("is that in mm?" in asked for asked in cutter.questions)


@pytest.mark.parametrize("figure", ["1/2/3", "3.4.5", "1/0/2"])
def test_a_figure_that_is_no_size_is_asked_about(figure: str) -> None:
    """`1/2 em 1/2/3` was taken in as a half inch mill without a word of the rest."""
    [taken] = read_line(f"1/2 end mill {figure}", Shop("in")).taken
    assert taken.cutter.diameter_mm == 12.7
    assert any(f"what does '{figure}' say?" in asked for asked in taken.cutter.questions)
