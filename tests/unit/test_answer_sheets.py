"""The pass table, the page and the JSON, on answers made by hand."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from crib.findings.message import Measure
from crib.findings.verdicts import WORDS
from crib.pages.answer import page
from crib.pages.folding import folded
from crib.pages.passes import table
from crib.planning.told.advice import Advice
from crib.render.json.answer import advice_json
from crib.render.words import words
from tests.sheet_samples import ADVICE, CANNOT, MEASURE, PASSES, PLAN, REFER, REFUSED, scene
from tests.shown import shown


def position(lines: list[str], words: str) -> int:
    return next(at for at, line in enumerate(lines) if words in line)


def test_passes_that_differ_only_in_depth_share_a_line_and_every_depth_is_told() -> None:
    assert [run.span for run in folded(PASSES)][:2] == ["1-3", "4-5"]
    rows = shown(table(PASSES))
    assert rows[1].startswith("1-3") and "-.170 -.340 -.510" in rows[1]


def test_settings_show_half_thous_only_where_there_are_any() -> None:
    assert [words(Measure(inches * 25.4), "in") for inches in (0.175, 0.0635, -0.4675, 0.0)] == [
        ".175", ".0635", "-.4675", ".000"]
    assert words(Measure(-11.8745), "mm") == "-11.875"


def test_points_stand_under_each_other() -> None:
    rows = [row for row in shown(table(PASSES)) if "no. 7" in row or "no. 3" in row]
    cells = [row.index(".", row.index("head" if "head" in row else "throat")) for row in rows]
    assert len(set(cells)) == 1


def test_a_speed_that_the_mill_may_not_have_is_marked() -> None:
    rows = shown(table(PASSES))
    assert any("~440" in row for row in rows) and "which speeds the mill has isn't known" in rows[-1]


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("lines", [True, False])
@pytest.mark.parametrize("width", [60, 80, 100])
@pytest.mark.parametrize("advice", [ADVICE, CANNOT, MEASURE, REFER], ids=lambda advice: advice.answer)
def test_no_line_is_too_long_and_none_is_coloured(advice: Advice, width: int, lines: bool, units: str) -> None:
    rows = shown(page(advice, (scene(),)), units, width, lines)
    for row in rows:
        assert len(row) <= width
        assert "\x1b" not in row and row == row.rstrip() and (lines or row.isascii())


def test_the_answer_comes_first_then_where_the_cutters_lie() -> None:
    rows = shown(page(ADVICE, (scene(),)))
    assert rows[0] == "Answer: " + WORDS["extra passes"]
    assert position(rows, "drawer B2") < position(rows, "▼") < position(rows, "pass  ")
    assert position(rows, "Proved:") < position(rows, "pass  ") < position(rows, "Would also do")
    assert position(rows, "Would also do") < position(rows, "Not with these")


def test_warnings_are_in_order_of_severity() -> None:
    rows = shown(page(ADVICE))
    assert position(rows, "Caution: ") < position(rows, "Mind: ") < position(rows, "Note: ")


def test_refusals_stand_nearest_first_and_the_rest_is_counted() -> None:
    rows = shown(page(replace(ADVICE, refused=REFUSED * 5)))
    assert "  and 9 more" in rows
    every = " ".join(" ".join(shown(page(replace(ADVICE, refused=REFUSED * 5), refused=None))).split())
    told = [every.index(one) for one in ("Mic its diameter", "Would go if the head", "A neck of .255 or less")]
    assert told == sorted(told) and "Mic its diameter: .975 or less would do." in " ".join(" ".join(rows).split())
    assert len(shown(page(replace(ADVICE, refused=REFUSED * 5), refused=None))) > len(rows)


def test_measure_first_says_what_to_mic_and_where_it_lies() -> None:
    rows = shown(page(MEASURE))
    assert position(rows, "Measure first") < position(rows, "Not with these")
    assert "gift box" in rows[position(rows, "no. 19")]


def test_cannot_gives_the_nearest_ways_out_first() -> None:
    rows = shown(page(CANNOT))
    assert rows[0] == "Answer: " + WORDS["cannot"]
    would_do = " ".join(rows[position(rows, "What would do") : position(rows, "Asked:")])
    assert would_do.index("no. 21") < would_do.index("A neck of .255 or less"), "4 % of a face before 18 % of a neck"
    more = shown(page(replace(CANNOT, refused=(*REFUSED, replace(REFUSED[2], fix=None)))))
    assert position(more, "What would do") < position(more, "Not with these")


def test_refer_gives_no_way() -> None:
    rows = shown(page(replace(REFER, plans=(PLAN,), refused=REFUSED)))
    assert len(rows) == 3 and "competent person" in rows[1]
    assert advice_json(replace(REFER, plans=(PLAN,)), "in")["plans"] == []


def test_json_has_the_agreed_keys_in_their_order() -> None:
    shape = advice_json(ADVICE, "in")
    assert list(shape)[:6] == ["feature", "plans", "answer", "refused_count", "refused", "buy"]
    plan = shape["plans"][0]
    assert list(plan)[:14] == [
        "answer", "way", "cutters", "passes", "deviations", "figures", "setup", "holders", "assumed", "proof",
        "warnings", "minutes", "cost", "currency"]
    assert list(plan["passes"][0])[:16] == [
        "no", "cutter_id", "role", "view", "x_mm", "y_mm", "z_mm", "radial_mm", "axial_mm", "feed", "direction", "rpm",
        "wanted_rpm", "mm_per_min", "minutes", "says"]
    assert list(plan["proof"])[:3] == ["left_mm", "gouge_mm", "neck_gap_mm"]
    assert plan["figures"][0] == {"what": "side step", "mm": 4.445} and plan["figures"][2]["value"] == 2
    assert list(shape["refused"][0]) == ["cutter_id", "label", "answer", "rule", "says", "has_mm", "needs_mm", "fix",
                                         "id", "facts"]
    assert list(plan["warnings"][0])[:4] == ["rule", "severity", "says", "source"]
    assert list(plan["deviations"]) == [] and list(plan["cutters"][0])[:2] == ["id", "label"]


def test_json_is_json_and_its_numbers_are_plain() -> None:
    text = json.dumps(advice_json(ADVICE, "in"), allow_nan=False)
    assert json.loads(text) == advice_json(ADVICE, "in")
    assert '"x_mm": 4.445' in text and "-0.0" not in text


def test_twelve_refusals_unless_all_are_asked_for() -> None:
    many = replace(ADVICE, refused=REFUSED * 5)
    assert len(advice_json(many, "in")["refused"]) == 12 and advice_json(many, "in")["refused_count"] == 15
    assert len(advice_json(many, "in", refused="all")["refused"]) == 15
