"""Parts on the bench page: sent in, planned, ticked, measured, made of what was asked; two windows; nothing runs that
was typed."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path
from urllib.parse import quote, urlencode

import pytest

from crib.cli.app import run
from crib.store import open_crib
from tests.cli.test_part_made import TEXT, few
from tests.web.conftest import Browser, hidden

REST = "/part?name=rest"


def boxes(page: str, checked: bool = False) -> list[str]:
    """The boxes of the operations, or those that are ticked."""
    return re.findall(r'name="box" value="([^"]+)"' + (" checked" if checked else ""), page)


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A crib with a few cutters and one part on file, made once."""
    place = tmp_path_factory.mktemp("few")
    for words in few(place):
        assert run(["--crib", str(place / "crib.db"), *words]) == 0
    return place / "crib.db"


@pytest.fixture
def bench(made: Path, tmp_path: Path, at: Callable[..., Browser]) -> Browser:
    """A bench over it."""
    return at(Path(shutil.copy(made, tmp_path / "few.db")))


def test_sent_in_and_planned(bench: Browser) -> None:
    """It is listed, and its page has the answer first, how it lies, every cutter, a link to its sheet."""
    assert ">rest<" in bench.get("/parts").text and 'href="/parts"' in bench.get("/more").text
    page = bench.get(REST)
    assert page.status == 200 and "will do" in page.text
    assert "in 1 set-up" in page.text and "<svg" in page.text and "lay slot: throat" in page.text
    assert len(boxes(page.text)) == 4
    assert bench.get("/part/json?name=rest").answer.json()["part"] == "rest"
    assert bench.get("/part/toml?name=rest").answer.text == TEXT
    assert "attachment" in bench.get("/part/toml?name=rest").answer.headers["content-disposition"]


def test_sent_in_as_a_file(bench: Browser) -> None:
    """A file goes in word for word; without a name in it the name that is typed holds."""
    headers = {"origin": "http://127.0.0.1:8737", "sec-fetch-site": "same-origin"}
    answer = bench.client.post("/parts", data={"token": bench.bench.token, "name": "base"}, headers=headers,
                                 files={"file": ("rest.toml", TEXT.replace('name = "rest"\n', ""), "text/plain")})
    assert answer.status_code == 200 and ">base<" in answer.text
    assert "# a rest for the side lay" in bench.get("/part/toml?name=base").text


def test_ticks_are_what_is_done(bench: Browser) -> None:
    """A ticked operation is done, on the page, on the sheet and on the command line; two who tick at once don't take
    each other's ticks back; undo takes one back."""
    one, two, *_ = boxes(bench.get(REST).text)
    page = bench.post("/part/tick?name=rest", {"box": [one], "before": ""})
    assert boxes(page.text, True) == [one]
    page = bench.post("/part/tick?name=rest", {"box": [two], "before": ""})
    assert set(boxes(page.text, True)) == {one, two}
    assert {one, two} <= set(boxes(bench.get("/part/sheet?name=rest").text, True))
    assert bench.get("/part/json?name=rest").answer.json()["operations"][0]["done"]
    quiet = bench.post("/part/tick?name=rest", {"before": one, "quietly": "yes"}).answer.json()
    assert quiet == {"ticked": [two]}
    assert "part rest" in bench.get("/history").text


def test_the_sheet_keeps_all_its_boxes(bench: Browser) -> None:
    """What is ticked within an operation stays ticked, as the operation's own box does."""
    page = bench.get("/part/sheet?name=rest").text
    inner = next(box for box in boxes(page) if box.startswith("op-") and box.endswith(".2.1"))
    whole = next(box for box in boxes(page) if re.fullmatch("op-[0-9a-f]{10}", box))
    page = bench.post("/part/sheet?name=rest", {"box": [inner, whole], "before": ""}).text
    assert whole in boxes(page, True)
    page = bench.post("/part/sheet?name=rest", {"box": [inner], "before": f"{inner} {whole}"}).text
    assert inner in boxes(page, True) and whole not in boxes(page, True)
    style = bench.get("/part/print?name=rest")
    assert style.status == 200 and "script" not in style.text


def test_a_cutter_dulled_half_way(bench: Browser) -> None:
    """What is done stays; the rest is planned without the cutter, and what changed is told."""
    first = bench.get("/part/json?name=rest").answer.json()["operations"]
    every = boxes(bench.get(REST).text)
    bolts = [box for box, one in zip(every, first, strict=True) if one["feature"] == "bolts"]
    bench.post("/part/tick?name=rest", {"box": bolts[:1], "before": ""})
    throat = next(one for one in first if one["feature"] == "lay slot")
    bench.post(f"/cutter/{throat['cutter_id']}/now", {"words": "lost", "since": hidden(
        bench.get(f"/cutter/{throat['cutter_id']}").text, "since")})
    page = bench.get(REST).text
    assert f"no. {throat['cutter_id']} is no longer there" in page
    assert "instead: " in page


def test_measured(bench: Browser) -> None:
    """A size within its limits is told as such; outside, what it means; nonsense is told and nothing is lost."""
    page = bench.post("/part/measured?name=rest", {"size": "lay slot throat width", "reads": ".6205"})
    assert ".0045 under the least" in page.text and "metal is left" in page.text
    page = bench.post("/part/measured?name=rest", {"size": "lay slot throat width", "reads": "wide"})
    assert page.status == 400 and 'value="wide"' in page.text


def test_two_windows(bench: Browser) -> None:
    """Whoever keeps a text over a later one is told; theirs stays, and the typed text is still in the form."""
    version = hidden(bench.get(REST).text, "since")
    assert bench.post("/parts", {"name": "rest", "since": version, "text": TEXT + "# mine\n"}).status == 200
    page = bench.post("/parts", {"name": "rest", "since": version, "text": TEXT + "# yours\n"})
    assert page.status == 409 and "# yours" in page.text and "nothing of theirs was overwritten" in page.text
    assert "# mine" in bench.get("/part/toml?name=rest").text


def test_what_cannot_be_read_is_kept_and_told(bench: Browser) -> None:
    """A line that is no TOML, a material that is none, an order that goes round: told with what would be right; the
    text stays as it was typed."""
    version = hidden(bench.get(REST).text, "since")
    page = bench.post("/parts", {"name": "rest", "since": version, "text": TEXT.replace('"5/8+.002-0"', '"wide"')})
    assert page.status == 200 and "wide" in page.text and "<h2>What it is</h2>" in page.text
    version = hidden(page.text, "since")
    broken = TEXT.replace('stock = "4 x 2-1/2 x 1-1/4"', "stock = ")
    page = bench.post("/parts", {"name": "rest", "since": version, "text": broken})
    assert "line 3" in page.text and bench.get("/part/toml?name=rest").text == broken
    assert bench.get("/part?name=nothing").status == 404
    assert bench.post("/parts", {"text": " "}).status == 400


def test_something_that_was_asked(bench: Browser) -> None:
    """A question of the history becomes a feature, where it is said to lie; one that can't lie there is told."""
    bench.post("/ask/slot", {"width": "1/2", "depth": "1/4", "length": "4", "material": "grey iron"})
    with open_crib(str(bench.bench.crib)) as crib:
        number = crib.questions()[0].id
    page = bench.post("/part/add?name=rest", {"question": str(number), "at": "1-1/4", "face": "bottom",
                                              "called": "way"})
    assert page.status == 200 and "in 2 set-ups" in page.text and 'name = "way"' in page.text.replace("&#34;", '"')
    page = bench.post("/part/add?name=rest", {"question": "999", "at": "1"})
    assert page.status in (400, 404)


HOSTILE = '<script>alert(1)</script>"&x=1#\u202e'


def test_hostile_names(bench: Browser) -> None:
    """A name that is a tag, a quote, an address: only words, in the list, on the page, in links, on the sheet."""
    text = TEXT.replace('name = "lay slot"', f"name = '{HOSTILE}'")
    page = bench.post("/parts", {"name": HOSTILE, "text": text.replace('name = "rest"\n', "")})
    assert page.status == 200 and "<script>alert" not in page.text
    for path in ("/parts", f"/part?name={quote(HOSTILE)}", f"/part/sheet?{urlencode({'name': HOSTILE})}",
                 f"/part/print?{urlencode({'name': HOSTILE})}"):
        shown = bench.get(path)
        assert shown.status == 200 and "<script>alert" not in shown.text, path
        outside_fields = re.sub(r"<textarea.*?</textarea>|<input[^>]*>", "", shown.text, flags=re.DOTALL)
        assert "\u202e" not in outside_fields, path


def test_no_part_is_changed_without_the_token(bench: Browser) -> None:
    """A form of a page that isn't ours changes nothing."""
    one = boxes(bench.get(REST).text)[0]
    assert bench.post("/part/tick?name=rest", {"token": "x", "box": [one], "before": ""}).status == 403
    assert bench.post("/parts", {"token": "x", "text": TEXT}).status == 403
    assert not boxes(bench.get(REST).text, True)


def test_before_and_after(bench: Browser) -> None:
    """What a cutter less changes in the parts; one that there isn't is told, and what was typed stands again."""
    page = bench.get("/parts/changes?without=1")
    assert page.status == 200 and "lay slot: no. 2 instead of no. 1" in page.text
    page = bench.get("/parts/changes?without=99")
    assert page.status in (400, 404) and 'value="99"' in page.text
