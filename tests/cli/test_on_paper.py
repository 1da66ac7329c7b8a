"""`crib make ... --sheet` and `--picture`: what is written, and what is said where it can't be."""

from __future__ import annotations

import json
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.cli.conftest import Crib
from tests.sheets import Page

SLOT = ("make", "slot", "--width", "1/2+.005-0", "--depth", "1/4", "--length", "3", "--material", "1018")
MILL = ("take-in", "--kind", "end-mill", "--diameter", "1/2", "--flutes", "2", "--shank", "1/2", "--measured",
        "diameter")
HOSTILE = (
    "<script>document.title='gone'</script>", "\"'><img src=x onerror=alert(1)>",
    "</li></ul></section><style>*{display:none}", "&lt;b&gt; &amp; &#x3c;",
    "\u202edrawer\u202c \u2066x\u2069", "מגירה שלוש", "🪛🔩 🛠️", "x" * 5000,
    "] ]> <!-- --> <?php ?>",
    "{cutter} {0} %s %n", "two\nlines\x07\x1b[31m",
)


@pytest.fixture
def owned(crib: Crib) -> Crib:
    assert crib(*MILL).status == 0
    return crib


def test_both_are_written_beside_the_answer(owned: Crib, tmp_path: Path) -> None:
    sheet, picture = tmp_path / "slide.html", tmp_path / "slide.svg"
    came = owned(*SLOT, "--sheet", str(sheet), "--picture", str(picture))
    assert came.status == 0 and "slide.html" in came.err and "slide.svg" in came.err and "Answer" in came.out
    page = Page(sheet.read_text(encoding="utf-8")).root
    assert "Set-up sheet" in page.text and "no. 1" in page.text and "size:letter" in sheet.read_text(encoding="utf-8")
    drawn = ElementTree.fromstring(picture.read_text(encoding="utf-8"))
    assert drawn.tag.endswith("svg") and {"metal", "edge", "teeth"} <= {one.get("class") for one in drawn.iter()}
    assert any(one.text and "section" in one.text for one in drawn.iter())


def test_with_json_the_document_stays_one(owned: Crib, tmp_path: Path) -> None:
    came = owned(*SLOT, "--sheet", str(tmp_path / "a.html"), "--json")
    assert json.loads(came.out)["answer"] and (tmp_path / "a.html").exists()


@pytest.mark.parametrize(("units", "paper", "printed"), [
    ("in", "", "letter"), ("mm", "", "A4"), ("in", "a4", "A4"), ("mm", "letter", "letter")])
def test_the_paper_is_the_shops(owned: Crib, tmp_path: Path, units: str, paper: str, printed: str) -> None:
    """Letter for inches and A4 for millimetres, unless the owner said which."""
    if paper:
        assert owned("shop", "--sheet-paper", paper).status == 0
    sheet = tmp_path / "a.html"
    assert owned("--units", "in", *SLOT, "--sheet", str(sheet)).status == 0
    if units == "mm":
        owned("shop", "--units", "mm")
        words = [word.replace("1/2+.005-0", "12.7+.1-0").replace("1/4", "6").replace("3", "75") for word in SLOT[2:-2]]
        assert owned("make", "slot", *words[:], "--sheet", str(sheet), "--over").status == 0
    assert f"size:{printed};" in sheet.read_text(encoding="utf-8")


def test_what_is_there_stays_unless_it_may_go(owned: Crib, tmp_path: Path) -> None:
    """Before anything is reckoned, and with one sentence."""
    sheet = tmp_path / "a.html"
    sheet.write_text("mine", encoding="utf-8")
    came = owned(*SLOT, "--sheet", str(sheet))
    assert came.status == 2 and "is there already" in came.err and "--over" in came.err and not came.out
    assert sheet.read_text(encoding="utf-8") == "mine"
    assert owned(*SLOT, "--sheet", str(sheet), "--over").status == 0 and "Set-up" in sheet.read_text(encoding="utf-8")


@pytest.mark.parametrize(("name", "says"), [
    ("nowhere/a.html", "no folder"), ("a.pdf", "isn't named .html"), ("a", "isn't named .html"), ("", "isn't named"),
    ("file/a.html", "no folder"), ("x" * 300 + ".html", "too long")])
def test_what_cant_be_written(owned: Crib, tmp_path: Path, name: str, says: str) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    came = owned(*SLOT, "--sheet", str(tmp_path / name))
    assert came.status == 2 and says in came.err and "Traceback" not in came.err + came.out


def test_a_folder_that_may_not_be_written_to(owned: Crib, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As an ordinary user finds it: whoever runs the tests may be allowed everything."""
    real = Path.open

    def refused(path: Path, mode: str = "r", *more: object, **named: object) -> object:
        if path.parent == tmp_path and "w" in mode:
            raise PermissionError(13, "Permission denied")
        return real(path, mode, *more, **named)  # type: ignore[call-overload]

    monkeypatch.setattr(Path, "open", refused)
    came = owned(*SLOT, "--sheet", str(tmp_path / "a.html"))
    assert came.status == 2 and "permission denied" in came.err and "Answer" in came.out
    assert owned("asked", "--json").json["questions"]


def test_no_plan_no_sheet(crib: Crib, tmp_path: Path) -> None:
    assert crib("take-in", "1/8 drill").status == 0
    came = crib(*SLOT, "--sheet", str(tmp_path / "a.html"), "--picture", str(tmp_path / "a.svg"))
    assert came.status == 1 and "no set-up sheet was written" in came.err and "no picture was written" in came.err
    assert not list(tmp_path.glob("a.*"))


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_what_was_typed_does_no_harm(crib: Crib, tmp_path: Path, text: str) -> None:
    """In a place, a note, a marking and the part that it goes with: it stands there as it was typed, and no more; signs
    that nobody sees are spelt."""
    taken = crib(*MILL, "--drawer", text, "--note", text, "--marking", text[:200])
    assert taken.status == 0, taken.err
    sheet = tmp_path / "a.html"
    came = crib(*SLOT, "--mating", text[:300], "--sheet", str(sheet))
    if came.status == 0:
        page = sheet.read_text(encoding="utf-8")
        root = Page(page).root
        card = root.first("card")
        assert card is not None
        kept = re.sub(r"\s+", " ", "".join(sign if sign.isprintable() else repr(sign)[1:-1] for sign in text.strip()))
        shown = card.text.replace("\\n", " ")
        assert re.sub(r"\s", "", kept.replace("\\n", "")) in re.sub(r"\s", "", shown.replace("\\n", ""))
        assert not re.search("[\u202a-\u202e\u2066-\u2069\x00-\x08\x1b]", page)
        assert len(list(root.all("li"))) > 10
    else:
        assert came.status in (1, 2) and "Traceback" not in came.err
