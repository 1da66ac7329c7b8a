"""The owner's word against a rule, from the typing to the record: once, for the shop, for one cutter, and undone."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import Crib

ROOT = Path(__file__).parents[2]
SLIT = ("make", "slit", "--width", ".062", "--depth", "1/4", "--length", "3", "--material", "mild steel")
MINE = "I run that saw at 80"


@pytest.fixture
def bench(begun: Callable[..., Crib]) -> Crib:
    """The sample bench, whose slowest speed is too fast for its large saw."""
    return begun(("take-in", "--file", str(ROOT / "sample_crib" / "cutters.json")),
                 ("shop", "--spindle-rpm", "80,135,210,325", "--arbors", "1:1-3/4"))


def speed_note(bench: Crib, *more: str) -> dict[str, object]:
    found = bench(*SLIT, *more, "--json")
    assert found.status == 0, found.err
    return next((one for one in found.json["plans"][0]["warnings"] if one["rule"] == "SP1"), {})


def test_once(bench: Crib) -> None:
    assert speed_note(bench)["severity"] == "warn"
    told = speed_note(bench, "--overrule", MINE)
    assert told["severity"] == "note" and told["overruled"] == {"rule": "SP1", "words": MINE, "by": "this question"}
    assert f'by your word for this question, "{MINE}"' in " ".join(bench(*SLIT, "--overrule", MINE).out.split())
    assert speed_note(bench)["severity"] == "warn", "it was for that question only"
    assert MINE in bench("asked").out and f"SP1 doesn't hold for this question, by your word: \"{MINE}\"" in " ".join(
        bench(*SLIT, "--overrule", MINE, "--why").out.split())


def test_for_the_shop_and_undone(bench: Crib) -> None:
    set_ = bench("shop", "--overruled", f"SP1 {MINE}; CH1 brushed by the boy", "--json")
    assert set_.json["overruled"] == [f"SP1 {MINE}", "CH1 brushed by the boy"]
    assert MINE in bench("shop").out
    assert speed_note(bench)["overruled"]["by"] == "the shop"  # type: ignore[index]
    assert bench("undo").status == 0 and bench("shop", "--json").json["overruled"] == []
    bench("shop", "--overruled", f"SP1 {MINE}")
    assert bench("shop", "--overruled", "none", "--json").json["overruled"] == []


def test_for_one_cutter_and_undone(bench: Crib) -> None:
    number = bench("find", "3 x 1/16 slitting saw", "--json").json["cutters"][0]["id"]
    after = bench("amend", str(number), "--overruled", "I run it at 80", "--json")
    assert after.json["overruled"] == ["SP1 I run it at 80"]
    assert speed_note(bench)["overruled"] == {"rule": "SP1", "words": "I run it at 80", "by": "this cutter"}
    assert "I run it at 80" in bench("show", str(number)).out
    bench("undo")
    assert speed_note(bench)["severity"] == "warn"


def test_why_shows_the_ids(bench: Crib) -> None:
    shown = bench(*SLIT, "--why").out
    assert "SP1" in shown and "yours to overrule" in shown and "stands" in shown


def test_what_stands_is_said(bench: Crib) -> None:
    for words, says in (("SF1 it is only mine", "keeps people"), ("RE1 it goes", "geometry"),
                        ("SP9 no", "did you mean"), ("SP1 it runs at 80", "what runs at 80"),
                        ("nonsense", "which rule")):
        found = bench(*SLIT, "--overrule", words)
        assert found.status == 2 and says in " ".join(found.err.split()), words


@pytest.mark.parametrize("ending", ["json", "csv"])
def test_it_goes_out_and_comes_in_again(bench: Crib, tmp_path: Path, ending: str) -> None:
    """A list of nothing was taken for more than one word, and asked about."""
    number = bench("find", "3 x 1/16 slitting saw", "--json").json["cutters"][0]["id"]
    bench("amend", str(number), "--overruled", "SP1 I run it at 80; SW3 it cuts well")
    file, other = str(tmp_path / f"all.{ending}"), str(tmp_path / "other.db")
    assert bench("export", "--to", file).status == 0
    again = bench("--crib", other, "take-in", "--file", file, "--json").json
    saw = next(one for one in again["taken_in"] if one["overruled"])
    assert saw["overruled"] == ["SP1 I run it at 80", "SW3 it cuts well"] and not again["held_back"]
    assert not [one for one in again["taken_in"] if any("overruled" in text for text in one["questions"])]
