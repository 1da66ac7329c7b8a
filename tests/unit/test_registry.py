"""Every kind that is registered keeps to what a kind must give, so that a new one is tried without another line."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from crib import setups
from crib.cutters import KINDS
from crib.cutters.base import CUTTER_KEYS, Clearances, Cutter, Kind, Motion
from crib.cutters.checks import impossible
from crib.cutters.label import label
from crib.features import KINDS as FEATURES
from crib.features import draw
from crib.features.base import ENDS, FeatureKind
from crib.planning.ask import fields, read_request
from crib.setups import SETUPS
from crib.shop import Shop
from crib.store import open_crib

DRAWN = [kind for kind in KINDS.values() if kind.form]


def by_name(kind: Kind | FeatureKind) -> str:
    return kind.name


@pytest.mark.parametrize("kind", KINDS.values(), ids=by_name)
def test_a_cutter_kind_says_what_it_must(kind: Kind) -> None:
    assert kind.name == kind.name.lower() and " " not in kind.name
    assert kind.words and kind.plural and kind.words in label(kind.example or Cutter(0, kind.name), "in")
    assert kind.example is not None and kind.example.kind == kind.name
    assert {*kind.size_keys, *kind.shown_keys} <= set(CUTTER_KEYS)
    assert any(getattr(kind.example, key) is not None for key in kind.size_keys)
    assert kind.check(kind.example) == () and impossible(kind.example) == ()
    assert kind.motions <= set(Motion) and (kind.motions or not kind.form)


@pytest.mark.parametrize("kind", KINDS.values(), ids=by_name)
def test_a_cutter_comes_back_from_the_store_as_it_went_in(kind: Kind, tmp_path: Path) -> None:
    example = kind.example
    assert example is not None
    with open_crib(f"{tmp_path}/crib.db", create=True) as crib:
        [taken] = crib.take_in([example])
        again = crib.cutter(taken.id)
        assert again in crib.find([kind.words]).cutters
    assert taken == again
    assert replace(again, id=0, label="", questions=()) == replace(example, label="", questions=())
    assert json.loads(json.dumps(again.as_json()))["kind"] == kind.name


@pytest.mark.parametrize("kind", DRAWN, ids=by_name)
def test_a_silhouette_stands_on_its_face(kind: Kind) -> None:
    """Parts from the lower face up, no part empty; what doesn't cut stands clear of what does."""
    assert kind.form is not None and kind.example is not None
    form = kind.form(kind.fill(kind.example), Clearances())
    assert min(part.low for part in form.sure) == 0 and form.radius > 0 and form.height > 0
    for part in (*form.sure, *form.may, *form.clear):
        assert part.low < part.high and part.radius_low >= 0 and part.widest > 0 and part.name
    assert all(part.side >= 0 and part.end >= 0 for part in form.clear)


@pytest.mark.parametrize("kind", DRAWN, ids=by_name)
def test_what_is_not_known_is_asked_for_and_can_be_filled_in(kind: Kind) -> None:
    """Every size may be missing: what may decide is asked for, and both of its ends give a silhouette."""
    assert kind.form is not None and kind.example is not None
    for key in ("face_mm", "neck_mm", "reach_mm", "length_of_cut_mm", "shank_mm", "flutes"):
        cutter = kind.example.but(**{key: None})
        asked = kind.unknowns(cutter)
        assert all(one.key in CUTTER_KEYS and one.ask for one in asked)
        for which in ("kindest", "worst"):
            filled = cutter.but(**{one.key: getattr(one, which) for one in asked})
            made = kind.fill(filled)
            assert kind.form(made, Clearances()).radius > 0
            assert (made.neck_mm, made.material, made.hand, made.condition, made.note, made.marking) == (
                filled.neck_mm, filled.material, filled.hand, filled.condition, filled.note, filled.marking), (
                "rules are told of these before a cutter is filled in")


@pytest.mark.parametrize("kind", FEATURES.values(), ids=by_name)
def test_a_feature_kind_says_what_it_must(kind: FeatureKind) -> None:
    assert kind.words and kind.sizes and set(kind.ends) <= set(ENDS)
    assert all(spec.words and spec.tolerance in ("general", "loose", "exact") for spec in kind.sizes)
    keys = [field.key for field in fields(kind)]
    assert len(keys) == len(set(keys)) and all(field.help for field in fields(kind))


@pytest.mark.parametrize("kind", FEATURES.values(), ids=by_name)
def test_a_feature_kinds_example_is_drawn(kind: FeatureKind) -> None:
    """It is asked as it stands there; every room that is drawn calls for a kind of cutter that there is."""
    feature = draw(read_request(kind.name, kind.example, Shop(), "in"))
    assert feature.kind == kind.name and feature.words
    assert all(name in KINDS for calls in feature.calls_for.values() for name in calls.kinds)
    assert {room.name for room in feature.outline.rooms} <= {*feature.calls_for}
    assert set(kind.lies) <= set(kind.set_ups) <= set(SETUPS)


def test_a_set_up_is_in_the_file_of_its_name() -> None:
    """It is loaded by its name when it is asked for."""
    folder = Path(setups.__file__).parent
    assert {*SETUPS} == {path.stem.replace("_", " ") for path in folder.glob("*.py")} - {"  init  ", "base"}
    assert all(setup.name == name for name, setup in SETUPS.items())
