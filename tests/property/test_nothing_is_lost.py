"""Whatever is given is either taken in as it was given, or held back as it was given."""

from __future__ import annotations

import json
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st

from crib.cutters import KINDS, kind_of
from crib.cutters.base import CHOICES, LENGTH_KEYS, Cutter
from crib.cutters.label import label
from crib.findings.errors import CribError
from crib.intake.build import build
from crib.intake.lists.files import read_file
from crib.intake.lists.json_list import read_json
from crib.store import Crib, open_crib


def sizes(least_mm: int, most_mm: int) -> st.SearchStrategy[float]:
    """Lengths on whole nanometres."""
    return st.integers(least_mm * 1_000_000, most_mm * 1_000_000).map(lambda nm: nm / 1_000_000)


SIZES = {
    "diameter_mm": sizes(20, 30),
    "nominal_mm": sizes(20, 30),
    "neck_mm": sizes(2, 19),
    "tip_mm": sizes(0, 19),
    "pilot_mm": sizes(1, 19),
    "bore_mm": sizes(1, 19),
    "face_mm": sizes(1, 6),
    "reach_mm": sizes(6, 60),
    "min_hole_mm": sizes(31, 40),
    "overall_length_mm": sizes(61, 99),
    "corner_radius_mm": sizes(0, 10),
    "neck_fillet_mm": sizes(0, 3),
}
WORDS = st.text(st.characters(categories=("L", "N", "P", "S"), codec="utf-8"), min_size=1, max_size=12)
OTHERS: dict[str, st.SearchStrategy[Any]] = {
    "angle_deg": st.integers(1, 179).map(float),
    "flutes": st.integers(1, 40),
    "count": st.integers(0, 99),
    "centre_cutting": st.booleans(),
    "end_teeth": st.booleans(),
    "reground": st.booleans(),
    "thread": WORDS,
    "limit": WORDS,
    "marking": WORDS,
    "note": WORDS,
    "drawer": WORDS,
    "price": st.integers(0, 99_999).map(lambda n: n / 100),
    **{key: st.sampled_from(names) for key, names in CHOICES.items()},
}
VALUES = st.fixed_dictionaries(
    {"kind": st.sampled_from(tuple(KINDS))},
    optional=OTHERS | {key: SIZES.get(key, sizes(1, 50)) for key in LENGTH_KEYS},
)


@pytest.fixture(scope="module")
def crib() -> Any:
    with tempfile.TemporaryDirectory() as folder, open_crib(str(Path(folder) / "crib.db"), create=True) as opened:
        yield opened


def _built(values: dict[str, Any]) -> Cutter | None:
    said = {key: value for key, value in values.items() if str(value).lower() not in ("unknown", "none", "?")}
    measured = tuple(key for key in ("diameter_mm", "neck_mm") if key in said)
    try:
        return build(said | {"measured": measured}, "USD")
    except CribError:
        return None


@given(VALUES)
@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_cutter_comes_back_as_it_went_in(crib: Crib, values: dict[str, Any]) -> None:
    """Taken in, read back, printed as JSON and taken in again, it is the same cutter."""
    cutter = _built(values)
    event("taken in" if cutter else "refused")
    if cutter is None:
        return
    [stored] = crib.take_in([cutter])
    assert stored.but(id=0, label="") == cutter
    assert crib.cutter(stored.id) == stored
    again = read_json(json.dumps({"cutters": [stored.as_json()]}), "", "mm", "EUR", {})
    assert [one.cutter for one in again.taken] == [cutter]


@given(VALUES, st.sampled_from(("in", "mm")))
@settings(max_examples=100, deadline=None)
def test_every_cutter_has_a_name_with_its_kind_in_it(values: dict[str, Any], units: str) -> None:
    cutter = _built(values)
    if cutter is not None:
        assert kind_of(cutter).words in label(cutter, units)


ODD = st.one_of(
    st.binary(max_size=300),
    st.text(max_size=200).map(lambda text: text.encode("utf-8", "surrogatepass")),
    st.lists(
        st.lists(
            st.sampled_from(["end-mill", "1/2", ".250", '"', '5/8"', '"a\nb"', "", "#7", "\0", "é", "yes"]), max_size=5
        ).map(",".join),
        max_size=8,
    ).map(lambda lines: "\n".join(["kind,diameter,neck,note", *lines]).encode()),
    st.lists(
        st.sampled_from(
            [b"kind,diameter\n", b"end-mill,1/2\n", b"\xff", b"\xfe", b'"', b"\r", b"\n", b"\x85", b"\x1c"]
        ),
        max_size=20,
    ).map(b"".join),
)


@given(ODD)
@settings(max_examples=300, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_bytes_as_csv_are_taken_in_or_held_back(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    """Every line that isn't blank is part of a cutter, of a held back line, or is the heading."""
    file = tmp_path_factory.getbasetemp() / "odd.csv"
    file.write_bytes(content)
    try:
        reading = read_file(file, "in", "USD")
    except CribError as error:
        assert error.finding.says
        return
    numbers = [line.line for line in reading.held_back]
    assert numbers == sorted(set(numbers))
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return
    text = content.decode("utf-8", "surrogateescape").removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    lines = [line for line in text.split("\n") if line.strip()]
    spans = sum(1 + line.text.count("\n") for line in reading.held_back)
    heading = (
        0
        if reading.held_back
        and min(numbers) == next(place for place, line in enumerate(text.split("\n"), start=1) if line.strip())
        else 1
    )
    if '"' not in text:
        assert len(lines) == heading + len(reading.taken) + spans


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
        lambda inner: (
            st.lists(inner, max_size=4)
            | st.dictionaries(
                st.sampled_from(["kind", "diameter_mm", "cutters", "ends", "measured", "note", "x", "flutes"])
                | st.text(max_size=4),
                inner | st.sampled_from(["end-mill", "1/2", 12.7]),
                max_size=5,
            )
        ),
    )
)
@settings(max_examples=200, deadline=None)
def test_any_json_is_taken_in_or_held_back(value: Any) -> None:
    try:
        reading = read_json(json.dumps(value), "odd.json", "in", "USD", {})
    except CribError as error:
        assert error.finding.says
        return
    entries = value if isinstance(value, list) else value.get("cutters", [value])
    assert len(entries) == len(reading.taken) + len(reading.held_back)


@given(st.lists(st.text(max_size=6), max_size=3), st.sampled_from(("in", "mm")))
@settings(max_examples=100, deadline=None)
def test_any_words_can_be_looked_for(words: list[str], units: str) -> None:
    from crib.store.find import find

    cutters = [
        kind.example.but(id=place, label=label(kind.example, units))
        for place, kind in enumerate(KINDS.values())
        if kind.example
    ]
    found = find(cutters, words, units)
    assert set(found.cutters) <= set(cutters)
