"""Standard input that is closed, and numbers longer than any shop has."""

from __future__ import annotations

import sys

import pytest

from tests.cli.conftest import Crib

DIGITS = "9" * 5000


@pytest.mark.parametrize("words", [("take-in",), ("held-back",), ("held-back", "put-right"), ("find",), ("demo",)])
def test_a_closed_standard_input_is_no_fault(crib: Crib, monkeypatch: pytest.MonkeyPatch, tmp_path: object,
                                             words: tuple[str, ...]) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setattr(sys, "stdin", None)
    done = crib(*words)
    assert "the program failed" not in done.err


@pytest.mark.parametrize("words", [
    ("make", "slot", "--width", f"{DIGITS}/2", "--depth", "1/4"),
    ("make", "slot", "--width", f"1/2+{DIGITS[:400]}-0", "--depth", "1/4"),
    ("make", "slot", "--width", f"1/2+-{DIGITS}", "--depth", "1/4"),
    ("make", "dovetail", "--angle", DIGITS, "--depth", "1/4", "--width", "2"),
    ("take-in", "--kind", "drill", "--diameter", DIGITS),
    ("take-in", f"{DIGITS[:900]} drill"),
    ("take-in", f"#{DIGITS[:900]} drill, {DIGITS[:90]} flutes"),
    ("tap", f"{DIGITS}-20"),
    ("tap", f"M{DIGITS}"),
    ("tap", "eighths about saw .031 lent .000333331"),
    ("gauge", "--diameter", DIGITS),
    ("undo", DIGITS),
    ("show", DIGITS),
    ("find", DIGITS),
    ("labels", DIGITS, "--to", "/dev/null"),
    ("walk-round", "--seen", DIGITS),
    ("shop", "--spindle-rpm", DIGITS),
])
def test_no_number_is_too_long_to_answer(crib: Crib, words: tuple[str, ...]) -> None:
    """Five thousand digits ended in the words of the interpreter, and a thread's doubtful words asked of each other
    without end."""
    crib("take-in", "1/4 drill")
    done = crib(*words)
    assert "the program failed" not in done.err


def test_brackets_without_end_are_read_at_once() -> None:
    """A line of forty thousand brackets took three quarters of a minute: its end was looked for from each of them."""
    from crib.intake.lists.headings import meaning, units_of

    assert (meaning("[" * 200_000), units_of("[" * 200_000)) == (None, None)
