"""Bare decimals and fractions have a way of their own, without fractions, and so have limits behind them; what comes of
it is the exact value's float, which `crib.units.exact` reckons and the handbooks' rows hold."""

from __future__ import annotations

from hypothesis import example, given, settings
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.units import read_size
from crib.units.exact import nearest, value_of
from crib.units.length import Size
from crib.units.limits import size_of
from crib.units.usual import PM, usual

WRITTEN = r"[0-9]{0,3}[.,][0-9]{1,8}|([0-9]{1,2}[- ])?[0-9]{1,3}/[1-9][0-9]{0,2}|[0-9]{1,4}"


@given(st.from_regex(WRITTEN, fullmatch=True), st.sampled_from(("in", "mm")))
def test_a_usual_length_is_read_as_its_exact_value_is(text: str, units: str) -> None:
    told, (value, unit) = usual(text, units), value_of(text, units, "length")
    assert told is None or (told[0] / PM, told[1]) == (nearest(value), unit)


def test_every_sixty_fourth_that_is_printed_with_four_places_is_that_sixty_fourth() -> None:
    for shown in range(10_000):
        told, (value, _) = usual(f".{shown:04d}", "in"), value_of(f".{shown:04d}", "in", "length")
        assert told is not None and told[0] / PM == nearest(value)


SIZE = r" ?([0-9]{0,3}[.,][0-9]{1,5}|([0-9]{1,2}[- ])?[0-9]{1,2}/(2|8|16|64|0|3)|[0-9]{1,4}|[0-9]+\.|[.]) ?"
SIZED = st.one_of(*(st.from_regex(form.replace("SIZE", SIZE), fullmatch=True) for form in (
    "SIZE", r"SIZE\+SIZE/?-SIZE", r"SIZE\+SIZE-SIZE", "SIZE±SIZE", r"SIZE[-+/±]SIZE[-+/±]?SIZE(mm)?")))


def _read(read: object, text: str, units: str) -> Size | str:
    try:
        if read is size_of:
            return size_of(text, units, "width", (-0.127, 0.127), (-0.127, 0.127))
        return read_size(text, units, "width", (-0.127, 0.127))
    except CribError as error:
        return str(error)


@settings(max_examples=500)
@given(SIZED, st.sampled_from(("in", "mm")))
@example("9 +1 30/4-0", "in")
@example("845+77.-9", "mm")
@example(".5+.0469-0", "in")
def test_a_usual_size_is_read_as_it_is_among_all_forms(text: str, units: str) -> None:
    """What is looked at first takes nothing that is read otherwise, or not at all, among all the forms of limits."""
    assert _read(read_size, text, units) == _read(size_of, text, units)
