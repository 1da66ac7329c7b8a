"""Finding as a shop asks; drawers, lists to tick and labels."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.cli.conftest import Crib

BOX = (
    "1/2 4fl em 1/2 shank carbide drawer B2", "woodruff 606 neck 5/16 drawer B2-1",
    "5/8 2fl em 5/8 shank hss drawer B2",
    "#7 jobber drawer B21", "1/4 ball nose 3/8 shank top tray, third from left", "82 csk .630", "3/4 rougher drawer C1",
    "1/4-20 plug tap",
)


@pytest.fixture
def stocked(begun: Callable[..., Crib]) -> Crib:
    return begun(*(("take-in", line) for line in BOX))


@pytest.mark.parametrize(("words", "ids"), [
    ("about 5/8", [3, 6]), ("5/8", [3]), (".630 +/- .010", [6, 3]), ("woodruff", [2]), ("key cutter", [2]),
    ("csk", [6]),
    ("rougher", [7]), ("carbide", [1]), ("hss em", [3]), ("drawer b2", [1, 2, 3]), ("in drawer B2 about 1/2", [1]),
    ("what fits the 3/8 collet", [5]), ("fits the 1/2 collet", [1]), ("ball", [5]), ("endmil carbid", [1]),
    ("woodruf", [2]), ("tap", [8]), ("top tray", [5]), ("1/4", [5]),
])
def test_find_as_a_shop_asks(stocked: Crib, words: str, ids: list[int]) -> None:
    found = stocked("find", *words.split(), "--json").json["cutters"]
    assert [one["id"] for one in found] == ids


def test_a_drawer_is_drawn_with_what_lies_in_it(stocked: Crib) -> None:
    shown = stocked("drawer", "b2").out
    assert [int(number) for number in re.findall(r"^ +(\d+)[~ ] ", shown, re.MULTILINE)] == [1, 3, 2]
    assert "█" in shown and "░" in shown and "\x1b" not in shown
    assert "in B2-1" in shown and "#7" not in shown
    assert [one["id"] for one in stocked("drawer", "B2", "--json").json["cutters"]] == [1, 3, 2]
    assert stocked("drawer", "Z9").status == 1
    assert "top tray" in stocked("drawer").out


def test_a_list_to_tick_and_what_came_of_it(stocked: Crib) -> None:
    shown = stocked("walk-round").out
    assert shown.index("B2\n") < shown.index("C1\n") < shown.index("no place on record")
    assert shown.count("[     ]") == len(BOX)
    assert stocked("walk-round", "--seen", "1,3", "--dull", "3", "--missing", "2").status == 0
    assert stocked("show", "3", "--json").json["condition"] == "dull"
    assert stocked("show", "2", "--json").json["count"] == 0
    assert "seen" in stocked("show", "1").out
    assert stocked("walk-round", "--seen", "2").status == 0
    assert stocked("show", "2", "--json").json["count"] == 1
    assert stocked("walk-round", "--seen", "99").status == stocked("walk-round", "--seen", "x").status == 2


def test_labels_have_a_code_for_each_cutter(stocked: Crib, tmp_path: Path) -> None:
    file = tmp_path / "labels.svg"
    assert stocked("labels", "drawer", "B2", "--to", str(file)).status == 0
    tree = ElementTree.fromstring(file.read_text(encoding="utf-8"))
    assert tree.get("width") == "215.9mm" and tree.get("viewBox") == "0 0 215.9 279.4"
    names = [one.get("id") for one in tree.iter() if (one.get("id") or "").startswith("label-")]
    assert set(names) >= {"label-1", "label-2", "label-3"}
    assert stocked("labels", "drawer", "B2", "--to", str(file)).status == 2
    page = tmp_path / "labels.html"
    assert stocked("labels", "--to", str(page), "--json").json["labels"] == len(BOX)
    assert page.read_text(encoding="utf-8").count("<svg") == 1
    assert stocked("labels", "1", "2", "--to", str(tmp_path / "x.pdf")).status == 2


@pytest.mark.parametrize(("units", "setting", "paper", "size"), [
    ("in", None, "Letter", "215.9 279.4"), ("mm", None, "A4", "210 297"), ("in", "a4", "A4", "210 297"),
    ("mm", "letter", "Letter", "215.9 279.4")])
def test_labels_go_on_the_paper_that_the_shop_prints_on(stocked: Crib, tmp_path: Path, units: str, setting: str | None,
                                                        paper: str, size: str) -> None:
    """They were for A4 whatever the shop had: on Letter, which is 17.6 mm shorter, the last row was cut off, or all of
    it was printed smaller than the scale beside each silhouette. ANSI/ASME Y14.1: 8.5 x 11 in; ISO 216: 210 x 297."""
    stocked("shop", "--units", units, *(("--sheet-paper", setting) if setting else ()))
    page = tmp_path / "labels.html"
    assert f"of {paper}" in stocked("labels", "--to", str(page)).out
    text = page.read_text(encoding="utf-8")
    assert f"@page{{size:{paper};" in text and f'viewBox="0 0 {size}"' in text
    wide, high = map(float, size.split())
    for x, y in re.findall(r'<g id="label-\d+" transform="translate\(([\d.]+) ([\d.]+)\)', text):
        assert 5 <= float(x) <= wide - 64 - 5 and 5 <= float(y) <= high - 30 - 5


def test_a_code_says_how_to_find_the_cutter() -> None:
    """The matrix on the label is the one that the text makes."""
    import segno

    from crib.pages.labels import code_text
    from crib.render.html.labels import _code

    matrix = segno.make(code_text(12), error="m", micro=False).matrix
    assert _code(code_text(12), 0, 0).count("h1v1h-1z") == sum(map(sum, matrix))
