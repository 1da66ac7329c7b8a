"""The sample bench: every cutter is one that could exist, and the T-slot has the answer that its page tells of."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

import pytest

from crib.app.part.on_file import read_text
from crib.cutters import kind_of
from crib.cutters.base import CHOICES, CUTTER_KEYS, LENGTH_KEYS, Cutter
from crib.cutters.checks import impossible
from crib.handbook.deviations import widest_neck
from crib.handbook.materials import find_material
from crib.parts.meeting import check
from crib.parts.order import order_of
from crib.planning.parts.asked import asked_of
from crib.safety.refer import refer
from crib.shop import SETTINGS, from_json
from crib.units import read_size

HERE = Path(__file__).parent.parent / "sample_crib"
RECORDS = json.loads((HERE / "cutters.json").read_text(encoding="utf-8"))
QUESTIONS = json.loads((HERE / "questions.json").read_text(encoding="utf-8"))
LISTS = ("assumed", "measured", "questions")
IN = 25.4


def cutter(record: dict) -> Cutter:
    return Cutter(**{key: tuple(value) if key in LISTS else value for key, value in record.items()})


CUTTERS = [cutter(record) for record in RECORDS]


@pytest.mark.parametrize("record", RECORDS, ids=lambda r: f"{r['id']} {r['kind']}")
def test_record(record):
    assert set(record) <= set(CUTTER_KEYS) and None not in record.values()
    for key, allowed in CHOICES.items():
        assert record.get(key, allowed[0]) in allowed
    assert all(record[key] * 1e6 == pytest.approx(round(record[key] * 1e6), abs=1e-3) for key in LENGTH_KEYS
               if key in record)
    made = cutter(record)
    kind = kind_of(made)
    assert any(getattr(made, key) is not None for key in kind.size_keys)
    assert kind.check(made) == () and impossible(made) == ()
    assert set(made.measured) <= set(record)


@pytest.mark.parametrize("made", [c for c in CUTTERS if c.kind in ("keyseat-cutter", "t-slot-cutter")],
                         ids=lambda c: f"{c.id}")
def test_discs_have_room_for_their_shanks(made):
    if made.neck_mm:
        assert made.neck_mm < made.diameter_mm and made.neck_mm < made.shank_mm
    if made.reach_mm:
        assert made.face_mm < made.reach_mm < made.overall_length_mm - IN


@pytest.mark.parametrize("path", sorted((HERE / "parts").glob("*.toml")), ids=lambda path: path.stem)
def test_every_part_is_read_whole_and_can_lie_as_it_does(path):
    """Nothing of it is unread, outside the stock or in one place with another, and no wall in it is thin."""
    shop = from_json(json.loads((HERE / "shop.json").read_text(encoding="utf-8")))
    read = read_text(path.read_text(encoding="utf-8"), shop, path.stem)
    assert not read.unread
    asked = asked_of(read.whole, shop)
    assert not asked.faults
    order_of(read.whole, asked.drawn)
    assert {told.id for told in check(read.whole, asked.drawn)} <= {"part-breaks-in", "part-edge", "part-crosses"}


def test_all_sorts():
    kinds = Counter(made.kind for made in CUTTERS)
    assert 55 <= len(CUTTERS) <= 80 and len(kinds) >= 17
    assert [made.id for made in CUTTERS] == list(range(1, len(CUTTERS) + 1))
    assert kinds["keyseat-cutter"] >= 12 and kinds["t-slot-cutter"] == 2
    assert sum(made.reground and made.diameter_mm is None for made in CUTTERS) == 1
    assert sum(made.condition == "chipped" for made in CUTTERS) == 1
    assert all(made.questions for made in CUTTERS if made.drawer == "gift box")
    assert sum(made.kind == "keyseat-cutter" and made.neck_mm is None for made in CUTTERS) >= 3


def test_shop():
    settings = json.loads((HERE / "shop.json").read_text(encoding="utf-8"))
    assert set(settings) <= set(SETTINGS)
    shop = from_json(settings)
    assert {7 / 16 * IN, 5 / 8 * IN}.isdisjoint(shop.collets_mm) and 12.7 in shop.collets_mm
    assert shop.spindle_rpm == (80, 135, 210, 325, 660, 1115, 1750, 2720)
    assert {made.bore_mm for made in CUTTERS if made.bore_mm} <= {arbor.bore_mm for arbor in shop.arbors}


def options(make: list[str]) -> dict[str, str]:
    return dict(zip(make[1::2], make[2::2], strict=True))


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q["says"])
def test_questions_can_be_read(question):
    assert question["make"][0] in ("slot", "t-slot", "step")
    given = options(question["make"])
    assert find_material(given["--material"])
    for key in ("--width", "--depth", "--throat", "--head-width", "--head-height", "--length"):
        if key in given:
            read_size(given[key], "in", key, (0.0, 0.0))


def test_one_question_is_referred():
    assert [refer(options(question["make"]).get("--use")) is not None for question in QUESTIONS] == [False] * 4 + [True]


def test_the_demo_slot():
    """Geometry: only the slim 605 passes the throat and stays under the head's height and width."""
    given = options(QUESTIONS[0]["make"])
    throat, head, height = (read_size(given[key], "in", key, (0.0, 0.0))
                            for key in ("--throat", "--head-width", "--head-height"))
    fit = []
    for made in CUTTERS:
        if made.kind not in ("keyseat-cutter", "t-slot-cutter") or not (made.neck_mm and made.face_mm):
            continue
        if made.diameter_mm > head.hi or made.face_mm > height.hi:
            continue
        if made.neck_mm <= widest_neck(made.diameter_mm, throat.hi, head.lo, 0.254):
            fit.append((made.marking, round(made.neck_mm / IN, 3)))
    assert fit == [("605", 0.25)]
    slots = [made for made in CUTTERS if made.kind == "t-slot-cutter"]
    assert all(made.face_mm > height.hi for made in slots)
