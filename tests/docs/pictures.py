"""The pictures that the README shows, made from the sample crib: `python -m tests.docs.pictures` writes them anew.

A drawing is kept as it is made. A page is photographed in Chromium, and beside its photograph stands the hash of what
was photographed, so that whoever has no browser can tell as well whether it is stale.
"""

from __future__ import annotations

import json
import re
import tempfile
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from crib.app.asking import ask
from crib.app.demo import copy, texts_of
from crib.app.opening import open_crib
from crib.app.part.plan import plan
from crib.planning.advise import Answered
from crib.render.html.part_sheet import part_sheet_html
from crib.render.html.setup_sheet import picture_svg, sheet_html
from crib.sample import folder
from tests import browser
from tests.docs.console import ROOT

HERE = ROOT / "tests" / "docs" / "pictures"
RENEW = "python -m tests.docs.pictures makes the pictures anew: look at them before keeping them"

MM = 96 / 25.4
WIDE, HIGH, MARGIN = 215.9, 279.4, 12.0
"""The first page of a sheet on Letter, and the margin round it [mm]."""

TABLET = 860
"""How much of the bench page is shown, as wide as the sheet [CSS px]."""


@cache
def answered() -> Answered:
    """The answer to the sample's first question."""
    first = json.loads((folder() / "questions.json").read_text(encoding="utf-8"))[0]
    with tempfile.TemporaryDirectory() as place:
        path, _ = copy(Path(place) / "demo.db")
        kind, *said = first["make"]
        with open_crib(str(path)) as crib:
            return ask(crib, kind, texts_of(said)).found


def section() -> str:
    """The drawing of its section."""
    return picture_svg(answered()) or ""


def sheet() -> str:
    """Its set-up sheet."""
    return sheet_html(answered()) or ""


@cache
def part() -> str:
    """The sheet of the sample's slide, the whole part."""
    with tempfile.TemporaryDirectory() as place:
        path, _ = copy(Path(place) / "demo.db")
        with open_crib(str(path)) as crib:
            reply = plan(crib, "slide")
    return part_sheet_html(reply.planned, reply.shop, None, reply.blank, reply.news, reply.cautions,
                           reply.squaring) or ""


@cache
def bench() -> str:
    """The bench page with the same answer, by itself: its style in it, and no script."""
    from starlette.testclient import TestClient

    from crib.web.bench import Bench
    from crib.web.site import site

    kind, *said = json.loads((folder() / "questions.json").read_text(encoding="utf-8"))[0]["make"]
    with tempfile.TemporaryDirectory() as place:
        path, _ = copy(Path(place) / "demo.db")
        asked = TestClient(site(Bench(str(path), hosts=frozenset({"bench"}), token="")), base_url="http://bench")
        page = asked.get(f"/answer/{kind}?{urlencode(texts_of(said))}").text
    style = (ROOT / "crib" / "web" / "static" / "bench.css").read_text(encoding="utf-8")
    page = page.replace('<link rel="stylesheet" href="/static/bench.css">', f"<style>{style}</style>")
    return re.sub(r'<script.*?</script>|<link rel="icon"[^>]*>', "", page)


def hash_of(text: str) -> str:
    """What stands beside a photograph."""
    return sha256(text.encode()).hexdigest()


def photograph(text: str, to: Path, is_paper: bool = True) -> None:
    """The first page of a sheet as it is printed: as many of its pieces as come whole on a page; else the upper part of
    a page as a tablet shows it."""
    from playwright.sync_api import sync_playwright

    program = browser.program()
    if program is None:
        raise SystemExit(browser.NONE)
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=program, args=browser.ARGUMENTS)
        page = opened.new_page(viewport={"width": round(WIDE * MM), "height": round(HIGH * MM)},
                               device_scale_factor=1.5)
        page.emulate_media(media="print" if is_paper else "screen", color_scheme="light")
        page.set_content(text)
        if is_paper:
            page.add_style_tag(content=f"body{{box-sizing:border-box;margin:0;padding:{MARGIN}mm!important}}")
        high = _cut(page) if is_paper else TABLET
        to.write_bytes(page.screenshot(clip={"x": 0, "y": 0, "width": round(WIDE * MM), "height": high}))
        opened.close()


def _cut(page: Any) -> float:
    """How far down the first page goes."""
    ends = page.evaluate("[...document.querySelectorAll('main > *, .card, .look > *')].map(one => "
                         "one.getBoundingClientRect().bottom)")
    return float(max(end for end in ends if end <= (HIGH - MARGIN) * MM)) + MARGIN * MM / 4


def main() -> None:
    """Make them anew."""
    HERE.mkdir(exist_ok=True)
    (HERE / "section.svg").write_text(section(), encoding="utf-8")
    photograph(sheet(), HERE / "sheet.png")
    (HERE / "sheet.sha256").write_text(hash_of(sheet()) + "\n", encoding="utf-8")
    photograph(part(), HERE / "part.png")
    (HERE / "part.sha256").write_text(hash_of(part()) + "\n", encoding="utf-8")
    photograph(bench(), HERE / "bench.png", is_paper=False)
    (HERE / "bench.sha256").write_text(hash_of(bench()) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
