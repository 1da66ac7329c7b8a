"""Lines of a table that say the same are read once: nothing else may come of it than of each line read by itself."""

from __future__ import annotations

from unittest.mock import patch

from hypothesis import example, given
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.intake.lists.alike import AlikeLines
from crib.intake.lists.csv_lines import open_csv

CELLS = {
    "id": ("", "1", "7"),
    "kind": ("end-mill", "drill", "Ball", "gizmo", "", "tap", "Rougher"),
    "diameter": ("1/4", "about 1/2", ".5", "12 mm", "", "0.2x", "'=1"),
    "flutes": ("", "2", "four", "two"),
    "thread": ("", "1/4-20"),
    "material": ("", "hss", "M42", "Carbide", "cobalt", "?", " hss "),
    "assumed": ("", "material", "flutes", "gizmo"),
    "qty": ("", "1", "3", "x", "unknown"),
    "drawer": ("", "A1", "B2", " B2 ", "'=A1", "50% off"),
    "remarks": ("", "lot 7", "resharpened", "chipped", "'s gone", "½", '"big, red"', "  "),
    "words": ("", "1/2 end mill"),
    "colour": ("", "red"),
}
HEADINGS = st.lists(st.sampled_from(sorted(CELLS)), min_size=1, max_size=8, unique=True)


@st.composite
def tables(draw: st.DrawFn) -> str:
    """A heading and lines under it, many of them alike, some with too many or too few cells."""
    heading = draw(HEADINGS)
    line = st.tuples(*(st.sampled_from(CELLS[name]) for name in heading), st.sampled_from(("", "", "", ",", ",x")))
    lines = [",".join(cells[:-1]) + cells[-1] for cells in draw(st.lists(line, min_size=1, max_size=6))]
    short = draw(st.integers(0, len(heading)))
    return "\n".join((",".join(heading), *lines, *lines, ",".join(lines[0].split(",")[:short])))


def _read(text: str, units: str, defaults: dict[str, str]) -> object:
    try:
        return [(one, getattr(one, "line", 0)) for one in open_csv(text, "list.csv", units, "USD", defaults)]
    except CribError as error:
        return error.finding


@given(tables(), st.sampled_from(("in", "mm")), st.dictionaries(
    st.sampled_from(("kind", "diameter_mm", "drawer", "note", "count")), st.sampled_from(("drill", "5", "lot 9")),
    max_size=2))
@example("kind,diameter,remarks\ndrill,1/4,\n\ndrill,1/4,\"lot\n9\"\ndrill,1/4,\"big\n", "in", {})
@example("kind,drawer\ndrill,A1\ndrill,A1\n", "in", {"diameter_mm": "1/4", "note": "lot 9"})
@example("kind,diameter,material\ndrill,1/4,hss\ndrill,1/4,\ndrill,1/4,M42\ndrill,1/4,cobalt\n", "in",
         {"material": "hss"})
@example("kind,diameter,material,assumed\ndrill,1/4,hss,material\ndrill,1/4,,material\n", "in", {})
@example("Kind,diameter,material\ncarbide drill,1/4,hss\ncarbide drill,1/4,\n", "in", {})
@example("drawer\nA1\nA2\n", "mm", {"kind": "drill", "diameter_mm": "5"})
def test_lines_that_say_the_same_are_read_as_each_by_itself(text: str, units: str, defaults: dict[str, str]) -> None:
    found = _read(text, units, defaults)
    with patch.object(AlikeLines, "read", lambda *_: None):
        assert found == _read(text, units, defaults)


@given(tables())
def test_however_few_are_kept(text: str) -> None:
    found = _read(text, "in", {})
    with patch("crib.intake.lists.alike._MOST_KEPT", 1):
        assert found == _read(text, "in", {})
