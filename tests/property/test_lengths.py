"""Lengths are read and shown without loss, and nonsense is never a length."""

from __future__ import annotations

from fractions import Fraction
from math import isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.units import as_fraction, in_words, nm, read, read_size, show

INCH = Fraction(254, 10)


@settings(max_examples=300)
@given(st.integers(1, 64 * 12), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_a_fraction_is_exact(top: int, bottom: int) -> None:
    """Every sixty-fourth is a whole number of nanometres; it is shown as it was typed, in its lowest terms."""
    value = Fraction(top, bottom)
    whole, rest = divmod(value, 1)
    text = f"{whole}-{rest}" if whole and rest else str(value)
    length = read(text, "in")
    assert nm(length.mm) == value * INCH * 1_000_000
    assert as_fraction(length.mm) == text == in_words(length.mm, "in")
    for other in (f'{text}"', f"{text} in", f"{whole} {rest} inch" if whole and rest else f"{text}in"):
        assert read(other, "mm").mm == length.mm
    if rest:
        assert read(text, "mm").mm == length.mm, "a fraction is in inches unless it says otherwise"


@settings(max_examples=300)
@given(st.integers(1, 99_999), st.sampled_from(["in", "mm"]))
def test_three_places_come_back(thousandths: int, units: str) -> None:
    """What is shown reads as the same length, to the nanometre."""
    mm = thousandths / 1000 * (25.4 if units == "in" else 1.0)
    again = read(show(mm, units), units).mm
    assert nm(again) == nm(mm)
    assert show(again, units) == show(mm, units)
    assert nm(read(show(mm, units) + units, "mm").mm) == nm(mm)
    assert show(-mm, units) == "-" + show(mm, units)
    assert show(mm, units, sign=True) == "+" + show(mm, units)


@settings(max_examples=200)
@given(st.integers(1, 5000), st.integers(0, 200), st.integers(0, 200), st.sampled_from(["in", "mm"]))
def test_limits_come_back(size: int, plus: int, minus: int, units: str) -> None:
    """A size with its tolerance, however it is written."""
    scale = 25.4 if units == "in" else 1.0
    size += 200
    lo, hi = (size - minus) / 1000 * scale, (size + plus) / 1000 * scale
    for text in (f"{size / 1000:.3f}+{plus / 1000:.3f}-{minus / 1000:.3f}",
                 f"{size / 1000:.3f} -{minus / 1000:.3f} +{plus / 1000:.3f}",
                 f"{size / 1000:.3f}{units}+{plus / 1000:.3f}-{minus / 1000:.3f}"):
        read_back = read_size(text, units, "width", (0.0, 0.0))
        assert (nm(read_back.lo), nm(read_back.hi), read_back.given) == (nm(lo), nm(hi), True)
    even = read_size(f"{size / 1000:.3f}+/-{minus / 1000:.3f}", units, "width", (0.0, 0.0))
    assert (nm(even.lo), nm(even.hi)) == (nm(lo), nm((size + minus) / 1000 * scale))


NONSENSE = (
    "3/0", "-1", "nan", "inf", "1/4/2", "", " ", "0", "0.0", "0/4", "-.5", "1e3", "1-", "#", "#99", "half", "1..2",
    "1.2.3", "½x", "mm", "10 mm mm", "--", "1/-4", "٣x", "1_000", "0x10", "infinity", "1 1/4 2", "99999999999", "1/0",
    "-1/4", "+-", "1,2,3", "1--1/4", "1 - 1/4",
)


@pytest.mark.parametrize("text", NONSENSE)
@pytest.mark.parametrize("units", ["in", "mm"])
def test_nonsense_is_refused(text: str, units: str) -> None:
    """The value that can't be read is named, and what would be right is said."""
    for reading in (lambda: read(text, units), lambda: read_size(text, units, "width", (0.0, 0.0))):
        with pytest.raises(CribError) as caught:
            reading()
        assert text.strip() in caught.value.finding.says
        assert caught.value.finding.fix


@settings(max_examples=1000)
@given(st.one_of(st.text(max_size=8), st.text(alphabet="0123456789./-+ #±,mindrth\"", max_size=9)),
       st.sampled_from(["in", "mm"]))
def test_anything_is_a_length_or_an_error(text: str, units: str) -> None:
    """Whatever is typed is a length above zero, finite and shorter than any mill, or one `CribError`."""
    for reading in (lambda: read(text, units).mm, lambda: read_size(text, units, "width", (0.0, 0.0)).lo):
        try:
            mm = reading()
        except CribError as error:
            assert error.finding.says and error.finding.fix
        else:
            assert isfinite(mm) and 0 < mm <= 10_001
            assert any(letter.isalnum() for letter in text)
