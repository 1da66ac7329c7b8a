"""Set-up sheets in Chromium: printed on both papers, and on a phone; nothing runs over, no picture is cut, all is
there."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from typing import Any

import pypdf
import pytest

from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.render.html.part_sheet import part_sheet_html
from crib.render.html.setup_sheet import sheet_html
from crib.shop import Shop
from tests.browser import AUDIT
from tests.part_samples import planned
from tests.sheets import OWNED, Element, Page, answered

PX = 96 / 25.4
MARGIN = 12.0
PAPERS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
LOOKED_AT = ("the slide's T-slot", "closed slot", "dovetail-slide", "gib-screw-holes", "step", "keyseat")

OVERFLOWING = """() => {
    const wide = document.documentElement.clientWidth + 1, found = [];
    for (const one of document.querySelectorAll('body, body *:not(svg *)')) {
        const inline = getComputedStyle(one).display === 'inline';
        if (!inline && one.scrollWidth > one.clientWidth + 1 || one.getBoundingClientRect().right > wide)
            found.push(one.tagName + ' ' + one.textContent.slice(0, 60)); }
    for (const one of document.querySelectorAll('svg text')) {
        const box = one.ownerSVGElement.getBoundingClientRect(), told = one.getBoundingClientRect();
        if (told.right > box.right + 1 || told.left < box.left - 1 || told.bottom > box.bottom + 1 ||
            told.top < box.top - 1) found.push(one.textContent); }
    return found; }"""
"""What is wider than its box or than the page, and words of drawings that reach out of them."""


@pytest.fixture(scope="module")
def tab(chromium: Any) -> Iterator[Any]:
    """One tab for all sheets: a tab of its own costs as much as what is looked at in it."""
    made = chromium.new_page()
    yield made
    made.context.close()


@pytest.fixture
def page(tab: Any) -> Iterator[Callable[..., Any]]:
    """The tab as wide as is asked, on a page that holds nothing yet; as it was once the test is over."""
    heard: list[tuple[str, Callable[..., Any]]] = []

    def empty(width: int = 1280, **hear: Callable[..., Any]) -> Any:
        tab.goto("about:blank")
        tab.set_viewport_size({"width": width, "height": 900})
        for event, what in hear.items():
            tab.on(event, what)
            heard.append((event, what))
        return tab

    yield empty
    for event, what in heard:
        tab.remove_listener(event, what)
    tab.emulate_media(media="null", color_scheme="null")


def loaded(page: Callable[..., Any], name: str, units: str, paper: str, width: int) -> Any:
    made = page(width)
    made.set_content(text(name, units, paper))
    return made


def text(name: str, units: str = "in", paper: str | None = None) -> str:
    found = sheet_html(answered(name, units, False), paper=paper)
    assert found
    return found


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", LOOKED_AT[:4])
def test_printed(page: Callable[..., Any], name: str, paper: str) -> None:
    """On the paper's own width in the print's own style nothing runs over; the words of every step are in the PDF; and
    each picture is whole on one page: a mark at its top and one at its lower edge come out on the same."""
    units = "in" if paper == "letter" else "mm"
    wide, high = PAPERS[paper]
    one = loaded(page, name, units, paper, round((wide - 2 * MARGIN) * PX))
    one.emulate_media(media="print")
    assert not one.evaluate(OVERFLOWING)
    count = one.evaluate(MARKED)
    printed = pypdf.PdfReader(io.BytesIO(one.pdf(prefer_css_page_size=True)))
    told = [words(one.extract_text()) for one in printed.pages]
    for one in printed.pages:
        box = one.mediabox
        assert (float(box.width) / 72 * 25.4, float(box.height) / 72 * 25.4) == pytest.approx((wide, high), abs=0.5)
    seen = {mark: [number for number, page_ in enumerate(told) for _ in range(page_.count(mark))]
            for mark in (f"Q{number}Q" for number in range(1, count + 1))}
    assert count > 2 and all(len(pages) == 2 and len(set(pages)) == 1 for pages in seen.values()), seen
    whole = re.sub(r"Q\d+Q", "", "".join(told))
    for step in Page(text(name, units, paper)).root.all("step"):
        for piece in (*step.all("h2"), *step.all("label"), *step.all("dl")):
            assert words(piece.text) in whole, piece.text


def words(told: str) -> str:
    """Without what a printer does to spaces and to joined letters."""
    return re.sub(r"\s+", "", told).replace("ﬁ", "fi").replace("ﬂ", "fl")


MARKED = """() => { let number = 0;
    for (const one of document.querySelectorAll('svg')) {
        const box = one.viewBox.baseVal; number += 1;
        for (const y of [2, box.height - 0.2]) {
            const mark = document.createElementNS('http://www.w3.org/2000/svg', 'text');
            mark.setAttribute('x', 1); mark.setAttribute('y', y); mark.setAttribute('font-size', 2);
            mark.setAttribute('fill', 'currentColor'); mark.setAttribute('stroke', 'none');
            mark.textContent = 'Q' + number + 'Q'; one.append(mark);
        } }
    return number; }"""


@pytest.mark.parametrize(("name", "scheme"), [(name, "light") for name in LOOKED_AT] + [(LOOKED_AT[0], "dark")])
def test_on_a_phone(page: Callable[..., Any], name: str, scheme: str) -> None:
    """360 pixels wide nothing runs over, no word is small, a box can be hit with a thumb's row, and dark is dark."""
    one = loaded(page, name, "in", "letter", 360)
    one.emulate_media(color_scheme=scheme)
    assert one.evaluate("document.documentElement.scrollWidth") <= 360
    assert not one.evaluate(OVERFLOWING)
    sizes = one.evaluate("""() => [...document.querySelectorAll('.step b')].map(
        one => parseFloat(getComputedStyle(one).fontSize))""")
    assert min(sizes) >= 18
    ground, ink = one.evaluate("""() => { const style = getComputedStyle(document.body);
        return [style.backgroundColor, style.color].map(one => parseInt(one.match(/\\d+/)[0])) }""")
    assert (ground < 64 and ink > 200) if scheme == "dark" else (ground > 200 and ink < 64)


def test_nothing_is_asked_of_anybody(page: Callable[..., Any]) -> None:
    """Opened, it asks no other file of anybody, and there is nothing in it that runs."""
    asked: list[str] = []
    one = page(request=lambda request: asked.append(request.url))
    one.set_content(text("t-slot"))
    one.wait_for_load_state("networkidle")
    assert not asked


@pytest.mark.parametrize("typed", ["<script>alert(1)</script><img src=x onerror=alert(2)>", "מגירה 3 שלוש", "🪛" * 400,
                                   "x" * 5000, "\u202e.500\u202c"])
def test_what_was_typed_neither_runs_nor_runs_over(page: Callable[..., Any], typed: str) -> None:
    """On a cutter's note, its place and its marking: nothing runs, and the page stays as wide as the phone."""
    shop = Shop()
    owned = [one.but(note=typed, drawer=typed, marking=typed) for one in OWNED]
    found = sheet_html(advise(read_request("step", {"width": "3/4", "depth": "1/4"}, shop, "in"), owned, shop))
    assert found
    ran: list[str] = []
    one = page(360, dialog=lambda dialog: (ran.append(dialog.message), dialog.dismiss()))
    one.set_content(found)
    assert not one.evaluate(OVERFLOWING) and not ran and one.evaluate("document.images.length") == 0


def test_a_box_stays_ticked_by_its_words(page: Callable[..., Any]) -> None:
    """A label ticks its own box, whatever of its row is touched."""
    one = loaded(page, "step", "in", "letter", 360)
    first = one.locator(".step label").nth(3)
    first.click()
    assert first.locator("input").is_checked()


def test_every_box_has_a_key_of_its_own() -> None:
    for name in LOOKED_AT:
        keys = re.findall(r'name="box" value="([^"]*)"', text(name))
        assert len(keys) == len(set(keys)) > 5
        assert all(re.fullmatch(r"[\w.]+", key) for key in keys)
        assert all(isinstance(one, Element) for one in Page(text(name)).root.all("label"))


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_who_cant_see_or_point_well_can_use_it(page: Callable[..., Any], axe: str, scheme: str) -> None:
    """axe-core finds nothing serious: names, order of headings, contrast."""
    one = loaded(page, "the slide's T-slot", "in", "letter", 800)
    one.emulate_media(color_scheme=scheme)
    one.evaluate(axe)
    assert not (found := one.evaluate(AUDIT)), found


def test_what_isnt_as_drawn_stands_before_everything() -> None:
    """With a verdict that needs a yes, what it gives away and by how much, before the first cutter is got out."""
    found = answered("hole", "in", False)
    deviations = found.advice.plans[0].deviations
    assert found.advice.answer == "compromise" and deviations
    root = Page(text("hole")).root
    sections = [one.names[0] for one in root.all("section")]
    assert sections.index("beyond") < sections.index("out")
    beyond = root.first("beyond")
    assert beyond and len(list(beyond.all("li"))) == len(deviations) and "the drawing allows" in beyond.text


def of_part(units: str, paper: str | None = None) -> str:
    plan = planned("slide", units)
    found = part_sheet_html(plan, plan.operations[0].proved.draft.question.shop, paper)
    assert found
    return found


@pytest.mark.parametrize("paper", PAPERS)
def test_a_part_is_on_one_look(page: Callable[..., Any], paper: str) -> None:
    """The first page has every set-up and every cutter, and nothing of it runs on to the second, where the first set-up
    begins; nothing runs over, no picture is cut, every step is printed."""
    units = "in" if paper == "letter" else "mm"
    one = page(round((PAPERS[paper][0] - 2 * MARGIN) * PX))
    one.set_content(of_part(units, paper))
    one.emulate_media(media="print")
    assert not one.evaluate(OVERFLOWING)
    printed = pypdf.PdfReader(io.BytesIO(one.pdf(prefer_css_page_size=True)))
    told = [words(one.extract_text()) for one in printed.pages]
    sheet = Page(of_part(units, paper)).root
    look = sheet.first("look")
    assert look is not None
    for piece in (*look.all("h3"), *look.all("tr"), *look.all("li")):
        for cell in (*piece.all("td"), *([] if piece.tag == "tr" else [piece])):
            assert words(cell.text) in told[0], cell.text
    assert "Set-up1:" not in told[0] and "Set-up1:" in told[1]
    for step in sheet.all("step"):
        for piece in (*step.all("h4"), *step.all("label"), *step.all("dl")):
            assert words(piece.text) in "".join(told), piece.text


@pytest.mark.parametrize("width", [360, 768])
def test_a_part_on_a_phone(page: Callable[..., Any], width: int) -> None:
    """Nothing runs over, and it asks nothing of anybody."""
    asked: list[str] = []
    one = page(width, request=lambda request: asked.append(request.url))
    one.set_content(of_part("in"))
    assert one.evaluate("document.documentElement.scrollWidth") <= width
    assert not one.evaluate(OVERFLOWING) and not asked
