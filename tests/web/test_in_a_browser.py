"""The bench page in a real browser: from an empty crib to a printed sheet with nothing but the page; with and without a
script; at every width, light and dark; and what happens to what was typed when the browser or the program dies."""

from __future__ import annotations

import io
import json
import os
import shutil
import signal
import socket
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from crib.findings.errors import CribError
from crib.store import open_crib
from crib.web import serving
from tests.browser import AUDIT
from tests.cli.test_part_made import TEXT as REST
from tests.web.test_pages import HOSTILE

ROOT = Path(__file__).parents[2]
T_SLOT = "throat=5/8%2B.002-0&depth=.520&head_width=.975&head_height=.240&material=grey+iron"
PAGES = ("/", "/ask", "/ask/t-slot?throat=5/8", "/ask/slot?width=x", f"/answer/t-slot?{T_SLOT}",
         f"/sheet/t-slot?{T_SLOT}", "/answer/slot?width=1/100&depth=2", "/drawers", "/drawer?place=top",
         "/find?words=keyseat", "/cutter/12", "/take-in", "/held-back", "/history", "/shop", "/asked",
         "/tap?thread=1/4-20&depth=1/2", "/gauge?diameter=.25&tpi=20", "/more", "/phone",
         f"/worth/t-slot?{T_SLOT}", "/wish-list", "/to-mic", "/check-up", "/out", "/parts",
         "/part?name=rest", "/part/sheet?name=rest", "/nope")
PATIENCE = 120
"""So long is waited for a page or an end [s]: far longer than it takes, for the machine may have other things to do."""
THUMB = 44
"""How high and wide what is pressed must be at the least, in CSS pixels (WCAG 2.2, 2.5.5 Target Size, enhanced)."""


class Site:
    """`crib bench` as somebody starts it."""

    def __init__(self, crib: Path, *words: str) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.crib, self.address, self.words = crib, f"http://127.0.0.1:{self.port}", words
        self.start()

    def start(self) -> None:
        """Begin to serve; back when the address is printed."""
        environment = {**os.environ, "PYTHONUNBUFFERED": "1"}
        self.process = subprocess.Popen(
            [sys.executable, "-c", "from crib.cli import main; main()", "bench", "--crib", str(self.crib), "--port",
             str(self.port), *self.words], cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        self.printed = []
        while f":{self.port}/" not in "".join(self.printed):
            self.printed.append(self.process.stdout.readline())
            assert self.printed[-1], "it ended at once"

    def kill(self) -> None:
        """As when the power goes."""
        self.process.kill()
        self.process.wait()

    def end(self) -> None:
        """As by Ctrl-C."""
        self.process.send_signal(signal.SIGINT)
        self.process.wait(PATIENCE)


@pytest.fixture(scope="module")
def site(sample: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """A site over the sample crib, with a line held back and a hostile cutter."""
    place = Path(shutil.copy(sample, tmp_path_factory.mktemp("site") / "crib.db"))
    with open_crib(str(place)) as crib:
        from crib.app.take_in import session_of

        session_of(crib).say("3/8 gizmo, the blue one")
        for text in HOSTILE:
            session_of(crib).say(text)
        crib.amend(crib.cutter(12).but(note="x" * 5000, drawer="top <b>\u202eright</b> " + "y" * 300,
                                       marking="<script>alert(1)</script>"))
        crib.keep_part("rest", REST)
    made = Site(place)
    yield made
    made.end()


@pytest.fixture
def page(chromium: Any) -> Iterator[Callable[..., Any]]:
    """A page in a browser of one's own."""
    opened: list[Any] = []

    def new(address: str, width: int = 1280, scheme: str = "light", **more: Any) -> Any:
        context = chromium.new_context(base_url=address, viewport={"width": width, "height": 800}, color_scheme=scheme,
                                       **more)
        opened.append(context)
        made = context.new_page()
        made.set_default_timeout(PATIENCE * 1000)
        made.on("dialog", lambda dialog: pytest.fail(f"a dialog: {dialog.message}"))
        return made

    yield new
    for context in opened:
        context.close()


def test_from_an_empty_crib_to_a_printed_sheet(page: Callable[..., Any], tmp_path: Path) -> None:
    """With nothing but the page, on a phone."""
    site = Site(tmp_path / "crib.db")
    try:
        one = page(site.address, 360)
        one.goto("/")
        one.get_by_role("link", name="Take the first one in").click()
        for line in ("9/16 4 flute end mill hss sharp 9/16 shank, 1-1/4 length of cut",
                     "1/2 4 flute end mill hss sharp 1/2 shank 1-1/4 length of cut", "5/8 gizmo"):
            one.get_by_label("A cutter, as you would say it").fill(line)
            one.get_by_label("Drawer").fill("B2")
            one.get_by_role("button", name="Take it in").click()
        assert "held back" in one.locator("li [role=status]").inner_text()
        one.get_by_role("link", name="More").click()
        one.get_by_role("link", name="The shop").click()
        one.get_by_label("spindle rpm").fill("80,135,210,325,660,1115,1750")
        one.get_by_label("collets:").fill("1/2,9/16")
        one.get_by_role("button", name="Keep it").click()
        one.get_by_role("link", name="Ask").click()
        one.get_by_role("link", name="slot", exact=True).click()
        one.wait_for_load_state("load")
        one.get_by_label("width").fill("9/16+.004-0")
        one.get_by_label("depth").fill("3/8")
        one.get_by_text("what is asked for, 2 : 1").wait_for()
        one.get_by_label("material").fill("grey iron")
        one.get_by_role("button", name="Which of my cutters can?").click()
        assert one.locator(".verdict").inner_text()
        one.get_by_role("link", name="Sheet for the mill").click()
        box = one.locator("[name=box]").first
        box.check()
        one.get_by_text("1 of ").wait_for()
        one.reload()
        assert one.locator("[name=box]").first.is_checked()
        one.get_by_role("link", name="To print").click()
        one.wait_for_url("**/print?*")
        one.wait_for_load_state("load")
        text = printed(one)
        assert "9/16 end mill" in text and "B2" in text and "grey" in text
    finally:
        site.end()


def printed(one: Any) -> str:
    """The text of a page as it is printed on Letter."""
    from pypdf import PdfReader

    reader = PdfReader(io.BytesIO(one.pdf(prefer_css_page_size=True)))
    assert reader.pages
    return " ".join("".join(page.extract_text() for page in reader.pages).split())


def test_all_of_it_works_without_a_script(page: Callable[..., Any], site: Site) -> None:
    one = page(site.address, 360, java_script_enabled=False)
    one.goto("/ask/t-slot")
    one.locator("[name=throat]").fill("5/8+.002-0")
    one.get_by_role("button", name="Redraw").click()
    assert one.get_by_text("Not said yet").is_visible() and one.locator("[name=throat]").input_value() == "5/8+.002-0"
    for name, text in (("depth", ".520"), ("head_width", ".975"), ("head_height", ".240")):
        one.locator(f"[name={name}]").fill(text)
    one.get_by_role("button", name="Which of my cutters can?").click()
    one.get_by_role("link", name="Sheet for the mill").click()
    one.locator("[name=box]").nth(1).check()
    one.get_by_role("button", name="Keep the ticks").click()
    assert one.locator("[name=box]").nth(1).is_checked() and "1 of" in one.locator("#ticked").inner_text()
    one.goto("/take-in")
    one.get_by_label("A cutter, as you would say it").fill("5/16 2 flute end mill")
    one.get_by_role("button", name="Take it in").click()
    assert "5/16 end mill" in one.locator("li [role=status]").inner_text()
    one.get_by_role("button", name="That's wrong: take it back").click()
    assert "taken back" in one.locator("li [role=status]").inner_text()


def test_what_is_typed_outlives_browser_and_program(page: Callable[..., Any], sample: Path, tmp_path: Path) -> None:
    """A page that crashes, a program that is killed before it has the line: it is still in the form, and goes in."""
    site = Site(Path(shutil.copy(sample, tmp_path / "crib.db")))
    line = "7/16 3 flute end mill, typed for a long time"
    try:
        one = page(site.address)
        one.goto("/take-in")
        one.get_by_label("A cutter, as you would say it").fill(line)
        other = one.context.new_page()
        with pytest.raises(Exception, match="crash"):
            one.goto("chrome://crash")
        other.goto("/take-in")
        assert other.get_by_label("A cutter, as you would say it").input_value() == line
        site.kill()
        other.get_by_role("button", name="Take it in").click()
        other.wait_for_url("chrome-error://chromewebdata/")  # nobody answers; until that stands it would come between
        with pytest.raises(Exception, match="REFUSED"):
            other.context.new_page().goto("/take-in")
        site.start()
        other.goto("/take-in")
        assert other.get_by_label("A cutter, as you would say it").input_value() == line
        other.get_by_role("button", name="Take it in").click()
        assert "7/16 end mill" in other.locator("li [role=status]").inner_text()
        assert other.get_by_label("A cutter, as you would say it").input_value() == ""
        other.get_by_label("A cutter, as you would say it").fill("the next one")
        other.reload()
        assert other.get_by_label("A cutter, as you would say it").input_value() == "the next one"
    finally:
        site.end()


@pytest.fixture(scope="module")
def looking(chromium: Any, site: Site) -> Iterator[Any]:
    """The tab in which page after page is looked over, touched as a phone is."""
    context = chromium.new_context(base_url=site.address, has_touch=True)
    one = context.new_page()
    one.set_default_timeout(PATIENCE * 1000)
    one.on("dialog", lambda dialog: pytest.fail(f"a dialog: {dialog.message}"))
    yield one
    context.close()


@pytest.fixture
def on_a_desk(looking: Any) -> Iterator[Any]:
    """The same tab, as wide as a desk's and light; what was typed is forgotten when it is over."""
    looking.emulate_media(color_scheme="light")
    looking.set_viewport_size({"width": 1280, "height": 800})
    yield looking
    looking.evaluate("localStorage.clear()")


@pytest.fixture(scope="module", params=PAGES)
def opened(looking: Any, request: pytest.FixtureRequest) -> Any:
    """One page after another, opened and unfolded once for all that is to be seen on it."""
    looking.emulate_media(color_scheme="light")
    looking.goto(request.param)
    looking.evaluate(_UNFOLD)
    return looking


def test_a_page_fits_and_is_made_for_thumbs(opened: Any) -> None:
    """Nothing runs out at the side, whatever hostile text is on it; what is pressed is large enough."""
    for width in (1600, 768, 360):
        opened.set_viewport_size({"width": width, "height": 800})
        assert opened.evaluate("document.documentElement.scrollWidth <= innerWidth"), width
        assert not (small := opened.evaluate(_SMALL)), (width, small[:4])


def test_nobody_is_shut_out(opened: Any, axe: str) -> None:
    """axe-core finds nothing serious, light on a phone and dark on a desk: labels, contrast (WCAG AA), names, order.
    No rule of a style that goes by the width says a colour or hides anything: light on a desk and dark on a phone are
    the same two again, and on the desk only what goes by colour or width need be looked at anew."""
    found = []
    opened.evaluate(axe)
    assert not (by_width := opened.evaluate(_COLOURS_BY_WIDTH)), by_width
    for width, scheme, rules in ((360, "light", None), (1280, "dark", _BY_LOOKS)):
        opened.set_viewport_size({"width": width, "height": 800})
        opened.emulate_media(color_scheme=scheme)
        found += [(width, scheme, *each) for each in opened.evaluate(AUDIT, rules)]
    assert not found, json.dumps(found, indent=1)


_UNFOLD = "for (const one of document.querySelectorAll('details')) one.open = true"
_BY_LOOKS = ["color-contrast", "link-in-text-block", "scrollable-region-focusable"]
_COLOURS_BY_WIDTH = r"""[...document.styleSheets].flatMap((one) => [...one.cssRules])
    .filter((one) => one instanceof CSSMediaRule && one.conditionText.includes('width'))
    .flatMap((one) => [...one.cssRules]).map((one) => one.cssText)
    .filter((text) => /[ -]color:|background|opacity|filter|visibility|display: none/.test(text))"""
_SMALL = f"""() => [...document.querySelectorAll(
    'button, .button, select, input:not([type=hidden]):not([type=checkbox]), textarea, summary, .bar a, .cards a,'
    + 'label:has(input[type=checkbox])')]
    .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < {THUMB} - .5)
    .map((one) => one.outerHTML.slice(0, 160) + ' ' + one.getBoundingClientRect().height)"""


def test_the_keyboard_reaches_everything_and_shows_where_it_is(on_a_desk: Any) -> None:
    one = on_a_desk
    one.goto("/ask/t-slot")
    reached = []
    for _ in range(60):
        one.keyboard.press("Tab")
        name, is_seen = one.evaluate("""() => { const at = document.activeElement, style = getComputedStyle(at);
            return [at === document.body ? '' : at.name || at.textContent.trim(),
                    style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2]; }""")
        if not name:
            break
        assert is_seen, f"no focus is seen on {name}"
        reached.append(name)
    assert reached[0] == "To the page itself" and {"Ask", "throat", "material", "Redraw"} <= set(reached)


def test_the_picture_follows_what_is_typed(on_a_desk: Any) -> None:
    one = on_a_desk
    one.goto("/ask/slot")
    one.get_by_label("width").fill("1/2")
    one.get_by_label("depth").fill("1/4")
    one.locator("#picture text", has_text=".500").wait_for()
    one.get_by_label("depth").fill("3/8")
    one.locator("#picture text", has_text=".375").wait_for()
    assert one.url.endswith("/ask/slot")


def test_on_the_network_a_phone_comes_in_by_the_code(page: Callable[..., Any], sample: Path) -> None:
    """The key goes from the address into a cookie that no script sees, and the address is without it then."""
    try:
        serving.own_address()
    except CribError:
        pytest.skip("this machine is in no network")
    site = Site(sample, "--host", "0.0.0.0")
    try:
        key = site.printed[-1].strip().partition("?key=")[2]
        one = page(site.address, 360)
        assert one.goto("/").status == 401
        one.goto(f"/?key={key}")
        one.get_by_role("heading", name="What is to be made?").wait_for()
        assert key not in one.url and one.evaluate("document.cookie") == ""
        [cookie] = one.context.cookies()
        assert cookie["httpOnly"] and cookie["sameSite"] == "Strict" and str(site.port) in cookie["name"]
        one.goto("/phone")
        assert one.locator(".code svg").is_visible()
        one.goto("/take-in")
        one.get_by_label("A cutter, as you would say it").fill("yes")
        one.get_by_role("button", name="Take it in").click()
        assert one.get_by_text("nothing was said yet").is_visible()
    finally:
        site.end()


def test_it_ends_by_ctrl_c_without_a_word(sample: Path, ctrl_c: None) -> None:
    site = Site(sample)
    site.end()
    assert site.process.returncode in (0, -signal.SIGINT, 130)
