"""The sheet of an answer on the page: its boxes stay ticked, whoever ticks them."""

from __future__ import annotations

import base64
import re
from collections.abc import Callable
from hashlib import sha256
from urllib.parse import urlencode

import pytest

from crib.store import open_crib
from tests.web.conftest import Browser

ASKED = urlencode({"throat": "5/8+.002-0", "depth": ".520", "head_width": ".975", "head_height": ".240",
                   "material": "grey iron"})
SHEET = f"/sheet/t-slot?{ASKED}"


def boxes(page: str, checked: bool = False) -> list[str]:
    """The boxes of a sheet, or those that are ticked."""
    return re.findall(r'name="box" value="([^"]+)"' + (" checked" if checked else ""), page)


def before(page: str) -> str:
    found = re.search(r'name="before" value="([^"]*)"', page)
    assert found
    return found[1]


def test_ticks_survive_a_reload_and_a_new_start(browser: Browser, at: Callable[..., Browser]) -> None:
    page = browser.get(SHEET)
    assert page.status == 200 and len(boxes(page.text)) > 10 and not boxes(page.text, True)
    one, two, *_ = boxes(page.text)
    page = browser.post(SHEET, {"box": [one, two], "before": ""})
    assert boxes(page.text, True) == boxes(browser.get(SHEET).text, True) == [one, two]
    page = browser.post(SHEET, {"box": [two], "before": before(page.text)})
    assert boxes(page.text, True) == [two]
    again = at(browser.bench.crib)
    assert boxes(again.get(SHEET).text, True) == [two]


def test_two_who_tick_at_once_dont_take_each_others_ticks_back(browser: Browser) -> None:
    """Only what was touched since the page was shown is changed."""
    one, two, three, *_ = boxes(browser.get(SHEET).text)
    shown = before(browser.post(SHEET, {"box": [one], "before": ""}).text)
    browser.post(SHEET, {"box": [one, two], "before": shown})
    page = browser.post(SHEET, {"box": [one, three], "before": shown})
    assert set(boxes(page.text, True)) == {one, two, three}


def test_ticking_alone_gives_what_is_ticked(browser: Browser) -> None:
    one = boxes(browser.get(SHEET).text)[0]
    for _ in range(2):
        answer = browser.post(SHEET, {"box": one, "quietly": "yes"}).answer
        assert answer.json() == {"ticked": [one]}
    with open_crib(browser.bench.crib) as crib:
        assert [change.what for change in crib.changes()].count("tick") == 1
    assert browser.post(SHEET, {"before": one, "quietly": "yes"}).answer.json() == {"ticked": []}


def test_another_plan_is_another_sheet(browser: Browser) -> None:
    """A tick says that this pass was made: not one of another plan that has taken its place."""
    page = browser.get(SHEET).text
    browser.post(SHEET, {"box": boxes(page)[:3], "before": ""})
    used = re.findall(r"no\. (\d+)", page)
    with open_crib(browser.bench.crib) as crib:
        crib.amend(crib.cutter(int(used[1])).but(count=0))
    page = browser.get(SHEET).text
    assert boxes(page) and not boxes(page, True)


def test_a_tick_doesnt_have_it_planned_again(browser: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    """A thumb doesn't wait for a search; whatever else is done to the crib has the answer found out anew."""
    from crib.web import ask

    asked: list[str] = []
    find_out = ask.find_out
    monkeypatch.setattr(ask, "find_out", lambda *said, **more: asked.append(said[1]) or find_out(*said, **more))
    one, two, *_ = boxes(browser.get(SHEET).text)
    browser.post(SHEET, {"box": one})
    browser.post(SHEET, {"box": two})
    browser.get(f"/answer/t-slot?{ASKED}")
    assert len(asked) == 1
    with open_crib(browser.bench.crib) as crib:
        crib.amend(crib.cutter(10).but(note="other"))
    browser.get(SHEET)
    assert len(asked) == 2


def test_nonsense_ticks_nothing(browser: Browser) -> None:
    page = browser.post(SHEET, {"box": ["<script>", "step99.99", "x" * 3000], "before": "step98.1 \"><b>"})
    assert page.status == 200 and not boxes(page.text, True)
    assert browser.post("/sheet/t-slot?throat=1", {"box": "ready.1"}).status == 400
    assert browser.get("/sheet/slot?width=1/100&depth=2").status == 404


def test_a_tick_stands_in_nobodys_way(browser: Browser) -> None:
    """Undo means what was done to the crib, and a tick is in the history."""
    from crib.app import changes, life

    with open_crib(browser.bench.crib) as crib:
        life.now(crib, 10, "dull")
    one = boxes(browser.get(SHEET).text)[0]
    browser.post(SHEET, {"box": one, "before": ""})
    assert f"ticked</strong> <bdi>{one}" in browser.get("/history").text
    with open_crib(browser.bench.crib) as crib:
        assert changes.undo(crib)[0][0].subject == "cutter 10"


def test_the_policy_lets_in_the_sheets_own_style_and_no_other(browser: Browser) -> None:
    for path in (SHEET, f"/sheet/t-slot/print?{ASKED}"):
        page = browser.get(path)
        styles = re.findall(r"<style>(.*?)</style>", page.text, re.DOTALL)
        policy = page.answer.headers["content-security-policy"]
        assert styles and all(base64.b64encode(sha256(one.encode()).digest()).decode() in policy for one in styles)
        assert "unsafe" not in policy and not re.search(r"<[^>]+\sstyle=", page.text)


def test_the_printed_sheet_is_the_one_that_the_command_line_writes(browser: Browser) -> None:
    from crib.app.asking import ask
    from crib.render.html.setup_sheet import sheet_html

    with open_crib(browser.bench.crib) as crib:
        reply = ask(crib, "t-slot", {"throat": "5/8+.002-0", "depth": ".520", "head_width": ".975",
                                     "head_height": ".240", "material": "grey iron"}, 12)
    assert browser.get(f"/sheet/t-slot/print?{ASKED}").text == sheet_html(reply.found)
