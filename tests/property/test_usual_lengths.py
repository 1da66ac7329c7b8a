"""Bare decimals and fractions have a way of their own, without fractions; what comes of it is the exact value's float,
which `crib.units.exact` reckons and the handbooks' rows hold."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from crib.units.exact import nearest, value_of
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
