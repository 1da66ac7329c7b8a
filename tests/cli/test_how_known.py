"""Measured, stamped, typical or stated: kept apart for each value, shown, and carried through files."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Crib


def known(crib: Crib, number: int = 1) -> dict[str, str]:
    found = crib("show", str(number), "--json").json["known"]
    assert isinstance(found, dict)
    return found


def test_the_mark_of_a_keyseat_cutter_is_stamped_until_it_is_measured(crib: Crib) -> None:
    """606: 32nds of the face, eighths of the diameter: 3/16 and 3/4 (ASME B17.2, key numbers; from memory)."""
    crib("take-in", "606 woodruff neck .300")
    assert known(crib) == {"diameter_mm": "stamped", "nominal_mm": "stamped", "face_mm": "stamped", "neck_mm": "stated"}
    crib("amend", "1", "--diameter", ".748", "--measured", "diameter")
    assert known(crib)["diameter_mm"] == "measured" and known(crib)["face_mm"] == "stamped"
    assert crib("show", "1", "--json").json["stamped"] == ["face_mm"]


@pytest.mark.parametrize("word", ["marked", "stamped", "etched"])
def test_a_size_read_off_a_cutter_is_stamped(crib: Crib, word: str) -> None:
    crib("take-in", f"end mill {word} 1/2 3/8 shank")
    found = crib("show", "1", "--json").json
    assert (found["nominal_mm"], found["diameter_mm"], found["shank_mm"], found["note"]) == (12.7, 12.7, 9.525, None)
    assert (found["known"]["diameter_mm"], found["known"]["shank_mm"]) == ("stamped", "stated")


def test_by_options(crib: Crib) -> None:
    crib("take-in", "--kind", "end-mill", "--nominal", "1/2", "--flutes", "4", "--length-of-cut", "1",
         "--assumed", "length-of-cut", "--shank", "1/2", "--measured", "shank")
    assert known(crib) == {"diameter_mm": "stamped", "nominal_mm": "stamped", "flutes": "stated",
                           "length_of_cut_mm": "typical", "shank_mm": "measured"}
    shown = crib("show", "1").out
    for line in ("diameter       1/2 (stamped)", "shank          1/2 (measured)", "length of cut  1 (typical)",
                 "flutes         4 (stated)"):
        assert line in shown
    assert crib("take-in", "--kind", "drill", "--diameter", "1/4", "--stamped", "colour").status == 2


def test_a_measured_size_is_not_overruled_in_silence(crib: Crib) -> None:
    crib("take-in", "--kind", "end-mill", "--diameter", ".499", "--measured", "diameter")
    done = crib("amend", "1", "--diameter", ".500")
    assert done.status == 0 and "diameter: .499 was measured; 1/2 is only stated" in done.err
    assert known(crib) == {"diameter_mm": "stated"}
    assert ".499 (measured) -> 1/2 (stated)" in crib("show", "1").out
    crib("undo")
    assert known(crib) == {"diameter_mm": "measured"}
    assert crib("amend", "1", "--diameter", ".499").err == "", "the same size again contradicts nothing"
    assert known(crib) == {"diameter_mm": "measured"}
    assert crib("amend", "1", "--diameter", ".498", "--measured", "diameter").err == ""
    assert crib("amend", "1", "--stamped", "diameter").err.startswith("diameter: .498 was measured")
    assert known(crib) == {"diameter_mm": "stamped"}


@pytest.mark.parametrize("ending", ["csv", "json"])
def test_it_survives_a_file(crib: Crib, tmp_path: Path, ending: str, monkeypatch: pytest.MonkeyPatch) -> None:
    crib("take-in", "606 woodruff neck .300 measured .748")
    crib("take-in", "--kind", "end-mill", "--nominal", "1/2", "--length-of-cut", "1", "--assumed", "length-of-cut")
    crib("take-in", "#5 centre drill")
    file = tmp_path / f"all.{ending}"
    if ending == "json":
        file.write_text(crib("find", "--json").out)
    else:
        assert crib("export", "--to", str(file)).status == 0
    was = {number: known(crib, number) for number in (1, 2, 3)}
    assert {how for each in was.values() for how in each.values()} == {"measured", "stamped", "typical", "stated"}
    monkeypatch.setenv("CRIB_DB", str(tmp_path / "other.db"))
    taken = json.loads(crib("take-in", "--file", str(file), "--json").out)["taken_in"]
    by_label = {known_as: number for number, known_as in ((one["id"], one["kind"]) for one in taken)}
    kinds = {1: "keyseat-cutter", 2: "end-mill", 3: "centre-drill"}
    assert {number: known(crib, by_label[kinds[number]]) for number in was} == was
