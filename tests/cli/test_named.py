"""What can be named is listed from the registries, and every word that is listed is read as what it stands for."""

from __future__ import annotations

import pytest

from crib.app.named import Named, cutters
from crib.cutters import KINDS as CUTTERS
from crib.features import KINDS as FEATURES
from crib.handbook.materials import find_material
from crib.intake.shorthand.kinds import called
from crib.intake.shorthand.slip import Slip
from crib.intake.shorthand.spelling import plain
from tests.cli.conftest import Crib


def test_every_material_is_known_by_each_of_its_words(crib: Crib) -> None:
    listed = crib("materials", "--json").json["materials"]
    shown = " ".join(crib("materials").out.split())
    for one in listed:
        for word in (one["name"], *one["words"]):
            assert find_material(word).name == one["name"] and word in shown


def test_every_kind_is_listed_with_what_it_needs(crib: Crib) -> None:
    listed, shown = crib("kinds", "--json").json, crib("kinds").out
    assert [one["name"] for one in listed["features"]] == list(FEATURES)
    assert [one["name"] for one in listed["cutters"]] == list(CUTTERS)
    for one in listed["features"]:
        assert one["needs"] == [f"--{key.replace('_', '-')}" for key in FEATURES[one["name"]].needed]
        assert all(word in shown for word in (one["name"], *one["words"], *one["needs"], *one["or_by"]))


@pytest.mark.parametrize("one", cutters(), ids=lambda one: str(one.name))
def test_every_word_of_a_cutter_is_read_as_it(one: Named) -> None:
    """As it stands in a line with a size before it."""
    for word in one.words:
        named = called(Slip(plain(f"1/2 {word}")[0], "in"))
        assert named and named.kind.name == one.name, word
