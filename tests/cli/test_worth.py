"""`crib worth`, `wish-list`, `price`, `friends`, from the typing to the status; and what the sample crib deserves."""

from __future__ import annotations

import shlex
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from crib.sample import questions
from crib.store import open_crib
from tests.cli.conftest import Crib

SLOT = ("--width", "9/16+.002-0", "--depth", "3/8", "--length", "4", "--material", "mild steel")
EXACT = ("--width", "1/2+.005-0", "--depth", "1/4", "--length", "4", "--material", "mild steel")
T_SLOT = ("--throat", "5/8", "--depth", ".52", "--head-width", ".975", "--head-height", ".24")
MILL = ("take-in", "--kind", "end-mill", "--diameter", "1/2", "--flutes", "4", "--shank", "1/2", "--length-of-cut", "1",
        "--condition", "sharp", "--material", "hss")


@pytest.fixture
def bench(begun: Callable[..., Crib]) -> Crib:
    """One end mill, no history, no price."""
    return begun((*MILL, "--measured", "diameter"), ("shop", "--collets", "1/2"))


def worth(bench: Crib, *words: str, kind: str = "slot", slot: tuple[str, ...] = SLOT) -> dict:
    done = bench("worth", kind, *slot, *words, "--json")
    assert done.status == 0, done.out + done.err
    return done.json


def test_the_keys_that_others_rely_on(bench: Crib) -> None:
    found = worth(bench, "--price", "12+3", "--uses", "4")
    assert {"advice", "price", "saving_per_use", "uses_to_break_even", "expected_uses"} <= set(found)
    assert found["advice"] in ("buy", "work around", "grind", "borrow")
    assert (found["price"], found["shipping"], found["expected_uses"]) == (12.0, 3.0, 4.0)
    saved = found["now"]["cost"] - found["with_it"]["cost"]
    assert found["saving_per_use"] == pytest.approx(saved, abs=1e-6)
    assert found["uses_to_break_even"] == pytest.approx(15 / saved, rel=1e-6)


def test_without_a_price_the_price_is_the_answer(bench: Crib) -> None:
    """The price that it is worth, put in, is where the answer turns."""
    found = worth(bench, "--uses", "6")
    assert found["price"] is None and found["uses_to_break_even"] is None and found["advice"] == "work around"
    at = found["break_even_price"]
    assert at > 0 and "no price was seen" in found["says"]
    assert worth(bench, "--uses", "6", "--price", f"{at - 0.01:.4f}")["advice"] == "buy"
    assert worth(bench, "--uses", "6", "--price", f"{at + 0.01:.4f}")["advice"] == "work around"


def test_a_dearer_price_never_turns_it_to_buy(bench: Crib) -> None:
    advice = [worth(bench, "--uses", "6", "--price", str(price))["advice"] for price in (0, 2, 5, 9, 14, 40)]
    assert advice == sorted(advice) and set(advice) == {"buy", "work around"}


def test_the_flips_that_it_names_are_where_it_flips(bench: Crib) -> None:
    found = worth(bench, "--uses", "3", "--price", "12")
    turns = {turn["what"]: turn for turn in found["turns"]}
    assert set(turns) == {"price", "uses", "hour"}
    uses = round(turns["uses"]["at"])
    assert turns["uses"]["above"] == "buy the 9/16 end mill, 2 flutes"
    assert worth(bench, "--uses", str(uses), "--price", "12")["advice"] == "buy"
    assert worth(bench, "--uses", str(uses - 1), "--price", "12")["advice"] == turns["uses"]["below"]
    for side, key in ((0.99, "below"), (1.01, "above")):
        bench("shop", "--hour-rate", f"{turns['hour']['at'] * side:.6f}")
        assert worth(bench, "--uses", "3", "--price", "12")["advice"] in turns["hour"][key]
    page = " ".join(bench("worth", "slot", *SLOT, "--uses", "3", "--price", "12").out.split())
    assert "What would change the answer" in page and "for an hour" in page


def test_nothing_is_recommended_where_nothing_is_gained(bench: Crib) -> None:
    found = worth(bench, slot=EXACT)
    assert found["advice"] == "work around" and found["what"] is None and found["offers"] == []
    assert bench("make", "slot", *EXACT, "--json").json["buy"] is None


def test_an_hour_that_is_worth_nothing(bench: Crib) -> None:
    """Pleasure work: only risk and wear decide, and no number of uses pays for a price that saves neither."""
    bench("shop", "--hour-rate", "0", "--blank-cost", "0")
    found = worth(bench, "--price", "12", "--uses", "50")
    assert found["advice"] == "work around" and abs(found["saving_per_use"] or 0) < 0.1


def test_a_line_under_every_answer_that_is_not_as_drawn(bench: Crib) -> None:
    done = bench("make", "slot", *SLOT, "--others")
    assert "Buying: The 9/16 end mill" in done.out and "no price was seen" in " ".join(done.out.split())
    buy = bench("make", "slot", *SLOT, "--json").json["buy"]
    assert buy["advice"] == "work around" and buy["price"] is None and buy["saving_per_use"] > 0
    bench("price", "0.50", "9/16 end mill")
    assert bench("make", "slot", *SLOT, "--json").json["buy"]["advice"] == "buy"


def test_where_nothing_owned_makes_it(bench: Crib) -> None:
    found = worth(bench, *T_SLOT, kind="t-slot", slot=())
    assert found["advice"] == "buy" and found["now"] == {"answer": "cannot"} and found["with_it"]["cost"] > 0
    assert "nothing that is owned makes it" in found["says"] and found["saving_per_use"] is None
    buy = bench("make", "t-slot", *T_SLOT, "--json").json["buy"]
    assert buy["advice"] == "buy" and "would make it" in buy["says"]


def test_it_comes_too_late(bench: Crib) -> None:
    day = (datetime.now(UTC).date() + timedelta(days=3)).isoformat()
    found = worth(bench, "--price", "1", "--uses", "9", "--wait", "9", "--deadline", day)
    assert found["advice"] == "work around" and "too late" in found["says"] and "next time" in found["says"]
    assert worth(bench, "--price", "1", "--uses", "9", "--wait", "2", "--deadline", "9")["advice"] == "buy"
    waits = worth(bench, "--price", "1", "--uses", "9", "--wait", "9", "--day-cost", "10")
    assert waits["advice"] == "work around" and waits["uses_to_break_even"] > 9


def test_a_friend_lends_it_and_it_is_never_owned(bench: Crib) -> None:
    before = bench("find", "--json").json["cutters"]
    bench("friends", "add", "Ann", "9/16 2fl end mill hss 1/2 shank loc 1-1/8 sharp")
    assert bench("find", "--json").json["cutters"] == before
    assert bench("make", "slot", *SLOT, "--json").json["answer"] == "extra passes"
    bench("shop", "--borrow-minutes", "2")
    found = worth(bench)
    assert found["advice"] == "borrow" and found["what"].startswith("Ann's 9/16 end mill")
    bench("shop", "--borrow-minutes", "60")
    assert worth(bench)["advice"] == "work around"
    [one] = bench("friends", "--json").json["friends"]
    assert bench("friends", "drop", str(one["id"])).status == 1


def test_one_tooth_from_a_blank(bench: Crib) -> None:
    """In brass a disc on a 1 in blank does the head; nothing that is owned reaches under the lip."""
    bench("take-in", "--kind", "blank", "--diameter", "1", "--shank", "1/2", "--material", "hss")
    found = worth(bench, *T_SLOT, "--material", "brass", kind="t-slot", slot=())
    assert found["advice"] == "grind" and "one-tooth" in found["what"]
    assert worth(bench, *T_SLOT, "--material", "mild steel", kind="t-slot", slot=())["advice"] == "buy"


def test_a_collet_counts_all_that_lie_idle_for_it(bench: Crib) -> None:
    for size in ("9/16", "7/16"):
        bench("take-in", "--kind", "end-mill", "--diameter", size, "--flutes", "2", "--shank", "7/16",
              "--length-of-cut", "1", "--material", "hss", "--condition", "sharp")
    bench("price", "1", "7/16 collet")
    found = worth(bench, "--uses", "2")
    assert found["advice"] == "buy" and found["what"] == "7/16 collet" and "2 cutters lie idle" in found["says"]


def test_one_cutter_alone(bench: Crib) -> None:
    found = worth(bench, "--cutter", "9/16 4fl end mill hss 1/2 shank", "--price", "1", "--uses", "9")
    assert found["what"].startswith("9/16 end mill, 4 flutes")
    assert [one["way"] for one in found["offers"]] == ["buy"]


def test_what_is_referred_is_referred(bench: Crib) -> None:
    done = bench("worth", "slot", *SLOT, "--use", "lifting eye", "--price", "3")
    assert done.status == 1 and "competent person" in done.out


@pytest.mark.parametrize("words", [
    ("--price", "-3"), ("--price", "lots"), ("--price", "9999999999"), ("--price", "12 EUR"), ("--price", "€12"),
    ("--price", "12+-3"), ("--shipping", "3 GBP"), ("--uses", "0"), ("--uses", "1000"), ("--uses", "often"),
    ("--wait", "-1"), ("--wait", "soon"), ("--deadline", "2001-01-31"), ("--deadline", "-4"), ("--deadline", "31/1"),
    ("--day-cost", "nan"), ("--cutter", "a thing"), ("--cutter", "tap set 1/4-20"),
])
def test_nonsense_is_refused_in_a_sentence(bench: Crib, words: tuple[str, ...]) -> None:
    done = bench("worth", "slot", *SLOT, *words, "--json")
    assert done.status == 2 and done.json["error"]["what"] and done.json["error"]["help"]
    said = bench("worth", "slot", *SLOT, *words)
    assert said.status == 2 and "Traceback" not in said.err and len(said.err.splitlines()) >= 2


@pytest.mark.parametrize("words", [
    ("price", "-1", "3/8 end mill"), ("price", "8 CHF", "3/8 end mill"), ("price", "8"), ("price", "8", "collet"),
    ("price", "8", "a thing"), ("price", "8", "3/8 end mill", "--on", "2999-01-01"), ("price", "--drop", "7"),
    ("price", "8", "3/8 end mill", "--on", "yesterday"), ("price", "8", "3/8 end mill", "--drop", "1"),
    ("friends", "add", "Ann", "a thing"), ("friends", "add", "  ", "3/8 end mill"), ("friends", "drop", "9"),
    ("wish-list", "--budget", "-5"), ("wish-list", "--budget", "60 EUR"), ("wish-list", "--budget", "plenty"),
])
def test_nonsense_in_notes_is_refused_and_kept_out(bench: Crib, words: tuple[str, ...]) -> None:
    done = bench(*words, "--json")
    assert done.status == 2 and done.json["error"]["what"] and done.json["error"]["help"]
    assert bench("price").status == 1 and bench("friends").status == 1


def test_prices_are_the_owners_notes(bench: Crib) -> None:
    bench("price", "9", "9/16 end mill", "--where", "a list", "--on", "2026-01-02")
    bench("price", "$12.50+3", "9/16 2fl end mill", "--on", "2026-02-03")
    found = worth(bench)
    assert (found["price"], found["shipping"]) == (12.5, 3.0), "the one seen last"
    shown = bench("price")
    assert "a list" in shown.out and "2026-02-03" in shown.out
    newest = bench("price", "--json").json["prices"][-1]["id"]
    bench("price", "--drop", str(newest))
    assert worth(bench)["price"] == 9.0
    bench("undo")
    assert worth(bench)["price"] == 12.5


def test_no_history_yet(bench: Crib) -> None:
    done = bench("wish-list")
    assert done.status == 1 and "nothing was asked" in done.out
    assert worth(bench)["expected_uses"] == 1.0


def test_uses_are_expected_by_what_was_asked(bench: Crib) -> None:
    """Two other slots that the same end mill would have served: 1 + 2 a year, 2 years ahead, less the doubt of .7."""
    for depth in (".25", ".30"):
        bench("make", "slot", "--width", "9/16+.002-0", "--depth", depth, "--length", "4", "--material", "mild steel")
    found = worth(bench)
    assert found["expected_uses"] == pytest.approx(1 + 2 * 2 * 0.7) and len(found["served"]) == 2
    assert worth(bench, "--uses", "2")["expected_uses"] == 2.0


def test_a_budget(bench: Crib) -> None:
    for depth in (".25", ".30", ".35"):
        bench("make", "slot", "--width", "9/16+.002-0", "--depth", depth, "--length", "4", "--material", "mild steel")
    bench("price", "1", "9/16 end mill")
    assert bench("wish-list", "--json").json["chosen"]["what"] == ["9/16 end mill, 2 flutes"]
    nothing = bench("wish-list", "--budget", "0", "--json").json
    assert nothing["chosen"]["what"] == [] and nothing["chosen"]["spends"] == 0
    assert "nothing within 0.00" in bench("wish-list", "--budget", "0").out
    assert nothing["serves_most"]["what"] == "9/16 end mill, 2 flutes"


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample crib, with its five questions asked."""
    from crib.cli.app import run

    path = tmp_path_factory.mktemp("demo") / "bench.db"
    assert run(["demo", "--into", str(path)]) == 0
    for one in questions()[1:]:
        run(["make", *one.make, "--crib", str(path)])
    return path


def test_what_the_five_questions_of_the_sample_deserve(crib: Crib, demo: Path) -> None:
    """One collet serves two of them and pays, a mill takes the step in one width; the T-slot cutter doesn't; the
    fourth wants a micrometer."""
    with open_crib(str(demo)) as opened:
        numbers = {tuple(past.texts.items()): past.id for past in opened.questions()}
    assert len(numbers) == 5
    found = crib("wish-list", "--budget", "60", "--crib", str(demo), "--json").json
    assert found["chosen"]["what"] == ["5/8 collet"] == [found["serves_most"]["what"]]
    assert found["chosen"]["saves"] > found["chosen"]["spends"] == 7
    assert len(found["serves_most"]["serves"]) == 2
    cutter = next(wish for wish in found["wishes"] if wish["what"] == ".975 x .240 T-slot cutter")
    assert len(cutter["serves"]) == 1 and cutter["saves"] < cutter["price"] + cutter["shipping"]
    served = {number for wish in found["wishes"] for number in wish["serves"]}
    fourth = max(number for number in numbers.values())
    assert fourth not in served
    kinds = {one["label"]: one["kind"] for one in found["needed_by_one_kind"]}
    assert any("keyseat cutter" in label and kind == "t-slot" for label, kind in kinds.items())


def test_the_samples_own_line(crib: Crib, demo: Path) -> None:
    first = questions()[0]
    done = crib("make", *first.make, "--others", "--crib", str(demo))
    assert "Buying: The .975 x .240 T-slot cutter at 57.00 USD would save" in done.out
    assert shlex.join(questions()[1].make).startswith("slot --width 5/8")
