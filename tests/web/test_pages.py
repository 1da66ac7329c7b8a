"""What the pages say and do; what the command line answers, they answer."""

from __future__ import annotations

import html
import json
import re
import shlex
import threading
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urlencode

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from crib.app import life
from crib.cli.app import run
from crib.features import KINDS
from crib.store import open_crib
from tests.trials.bench import run as nonsense
from tests.web.conftest import Browser, hidden

T_SLOT = {"throat": "5/8+.002-0", "depth": ".520", "head_width": ".975", "head_height": ".240",
          "material": "grey iron"}


def test_every_kind_has_a_form_with_all_that_it_can_be_asked(browser: Browser) -> None:
    from crib.app.kinds import fields_of

    for name, kind in KINDS.items():
        text = browser.get(f"/ask/{name}").text
        for field in fields_of(name):
            if field.key != "ends" or len(kind.ends) > 1:
                assert f'name="{field.key}"' in text, (name, field.key)
        assert "<svg" in text


def test_asking_leads_to_the_answer_and_is_remembered(browser: Browser) -> None:
    page = browser.post("/ask/t-slot", T_SLOT)
    assert page.status == 200 and page.answer.url.path == "/answer/t-slot"
    text = html.unescape(page.text)
    assert text.index("Will do") < text.index("<table") < text.index("Why not with the others")
    assert "clears by" in text and "--steps" not in text and page.text.count("<svg") >= 1
    assert "5/8+.002-0" in browser.get("/asked").text


def test_what_cant_be_read_is_said_beside_what_was_typed(browser: Browser) -> None:
    page = browser.post("/ask/t-slot", {**T_SLOT, "head_width": "nonsense <b>"})
    assert page.status == 400 and 'role="alert"' in page.text
    assert 'value="nonsense &lt;b&gt;"' in page.text and 'value="5/8+.002-0"' in page.text
    assert "--" not in re.sub(r"<[^>]+>", "", page.text)


@pytest.mark.parametrize("path", ["/cutter/99999", "/cutter/x", "/cutter/999999999999999999999", "/ask/gizmo",
                                  "/answer/taper-hole", "/drawer?place=nowhere", "/nope"])
def test_what_isnt_there_is_said(onlooker: Browser, path: str) -> None:
    page = onlooker.get(path)
    assert page.status in (200 if "drawer" in path else 404, 400)
    assert "Traceback" not in page.text and "<nav" in page.text


def test_an_empty_crib_is_begun_by_the_first_cutter(at: Callable[..., Browser]) -> None:
    browser = at()
    assert "Take the first one in" in browser.get("/").text
    for path in ("/drawers", "/find", "/history", "/asked", "/held-back", "/cutter/1"):
        page = browser.get(path)
        assert page.status == 404 and "Take in the first cutter" in page.text
    assert browser.get("/shop").status == browser.get("/ask/slot").status == 200
    page = browser.post("/take-in", {"line": "1/2 4 flute end mill hss drawer B2", "talk": "t", "line_no": "1"})
    assert page.status == 200 and "1/2 end mill" in page.text
    assert "B2" in browser.get("/drawers").text


def test_a_crib_that_begins_at_a_bench_in_millimetres_stays_in_them(at: Callable[..., Browser], tmp_path: Path) -> None:
    """As one that begins on the command line does; one that is there keeps its own."""
    line = {"line": "6 2 flute end mill", "talk": "t", "line_no": "1"}
    at(units="mm").post("/take-in", line)
    with open_crib(str(tmp_path / "crib.db")) as crib:
        assert crib.units == "mm" and [one.diameter_mm for one in crib.cutters()] == [6.0]
    at(tmp_path / "inches.db").post("/take-in", {**line, "line": "1/2 4 flute end mill"})
    at(tmp_path / "inches.db", units="mm").post("/take-in", {**line, "line_no": "2"})
    with open_crib(str(tmp_path / "inches.db")) as crib:
        assert crib.units == "in"


def test_a_line_that_cant_be_read_is_held_back_and_put_right(browser: Browser) -> None:
    page = browser.post("/take-in", {"line": "3/8 gizmo, the blue one", "talk": "t", "line_no": "1"})
    assert "held back" in page.text
    text = browser.get("/held-back").text
    assert "3/8 gizmo, the blue one" in text
    number = hidden(text, "number")
    page = browser.post("/held-back/put-right", {"number": number, "text": "3/8 end mill 2 flutes"})
    assert page.status == 200 and "3/8 end mill" in page.text
    assert "gizmo" not in browser.get("/held-back").text


def test_a_talk_goes_on_from_line_to_line(browser: Browser) -> None:
    """As at the prompt: the same again, a correction, taken back."""
    lines = ("3/8 2 flute end mill hss", "same as last but 5/16", "that's .310 actually")
    for line_no, line in enumerate(lines, start=1):
        page = browser.post("/take-in", {"line": line, "talk": "t", "line_no": line_no})
    assert ".310" in page.text
    found = browser.get("/find?words=end+mill+5/16").text
    page = browser.post("/take-in", {"line": "undo", "talk": "t", "line_no": 4})
    assert "taken back" in page.text
    assert browser.get("/find?words=end+mill+5/16").text != found


def test_a_line_that_is_sent_twice_is_taken_in_once(browser: Browser) -> None:
    """A thumb presses twice; a page is loaded again."""
    before = count(browser)
    for _ in range(2):
        browser.post("/take-in", {"line": "7/16 reamer", "talk": "t", "line_no": "1"})
    assert count(browser) == before + 1
    browser.post("/take-in", {"line": "7/16 reamer", "talk": "t", "line_no": "2"})
    assert count(browser) == before + 2


def count(browser: Browser) -> int:
    with open_crib(browser.bench.crib) as crib:
        return crib.counts()["cutter"]


def test_two_windows_on_one_cutter_dont_overwrite_each_other(browser: Browser) -> None:
    one, other = browser.get("/cutter/10").text, browser.get("/cutter/10").text
    page = browser.post("/cutter/10/amend", {"drawer": "C4", "since": hidden(one, "since")})
    assert page.status == 200 and "C4" in page.text
    page = browser.post("/cutter/10/amend", {"drawer": "D9 <x>", "note": "mine", "measured:diameter_mm": "yes",
                                             "since": hidden(other, "since")})
    assert page.status == 409 and "Somebody changed this cutter" in page.text and "C4" in page.text
    assert 'value="D9 &lt;x&gt;"' in page.text and 'value="mine"' in page.text
    assert re.search(r'name="measured:diameter_mm" value="yes" checked', page.text)
    with open_crib(browser.bench.crib) as crib:
        assert crib.cutter(10).drawer == "C4"
    page = browser.post("/cutter/10/amend", {"drawer": "D9", "since": hidden(page.text, "since")})
    assert page.status == 200
    with open_crib(browser.bench.crib) as crib:
        assert crib.cutter(10).drawer == "D9"


def test_of_many_at_once_one_is_kept_and_all_others_are_told(browser: Browser) -> None:
    since = hidden(browser.get("/cutter/10").text, "since")
    came: list[int] = []

    def amend(place: str) -> None:
        came.append(browser.post("/cutter/10/amend", {"drawer": place, "since": since}, follow=False).status)

    windows = [threading.Thread(target=amend, args=(f"K{at}",)) for at in range(6)]
    for one in windows:
        one.start()
    for one in windows:
        one.join()
    assert sorted(came) == [303, *[409] * 5]


def test_what_somebody_told_meanwhile_stops_a_word_too(browser: Browser) -> None:
    since = hidden(browser.get("/cutter/10").text, "since")
    with open_crib(browser.bench.crib) as crib:
        life.now(crib, 10, "lent to bob")
    page = browser.post("/cutter/10/now", {"words": "dull", "since": since})
    assert page.status == 409 and 'value="dull"' in page.text


def test_a_change_is_undone_and_the_undoing_too(browser: Browser) -> None:
    since = hidden(browser.get("/cutter/10").text, "since")
    browser.post("/cutter/10/now", {"words": "dull", "since": since})
    number = hidden(browser.get("/history").text, "change")
    assert "is undone" in browser.post("/history/undo", {"change": number}).text
    number = hidden(browser.get("/history").text, "change")
    browser.post("/history/undo", {"change": number})
    with open_crib(browser.bench.crib) as crib:
        assert crib.cutter(10).condition == "dull"


def test_the_shop_is_set_and_nonsense_is_kept_in_the_form(browser: Browser) -> None:
    assert "Kept" in browser.post("/shop", {"spindle_rpm": "80,160,320", "dro": "no"}).text
    page = browser.post("/shop", {"spindle_rpm": "fast", "units": ""})
    assert page.status == 400 and 'value="fast"' in page.text
    with open_crib(browser.bench.crib) as crib:
        assert crib.shop().spindle_rpm == (80, 160, 320) and crib.shop().dro is False


def test_a_locked_crib_loses_nothing(browser: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("crib.store.in_a_file.LOCK_SECONDS", 0.1)
    with open_crib(browser.bench.crib) as crib, crib.transaction():
        page = browser.post("/take-in", {"line": "9/16 keyseat cutter, mine", "talk": "t"})
        assert page.status == 400 and "locked" in page.text and "9/16 keyseat cutter, mine" in page.text
        page = browser.post("/cutter/10/amend", {"note": "typed for long", "since": "9999"})
        assert "locked" in page.text and "typed for long" in page.text


def test_a_fault_of_the_program_loses_nothing(browser: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object, **__: object) -> None:
        raise ZeroDivisionError("of all things")

    monkeypatch.setattr("crib.app.life.amend", fails)
    page = browser.post("/cutter/10/amend", {"note": "typed for long", "since": "1"})
    assert page.status == 500 and "typed for long" in page.text and "Send it again" in page.text
    assert "Traceback" not in page.text


def test_an_address_puts_no_words_into_the_page(browser: Browser) -> None:
    """What a page tells after something was done is told once, and by nobody else."""
    since = hidden(browser.get("/cutter/10").text, "since")
    page = browser.post("/cutter/10/now", {"words": "dull", "since": since})
    assert re.search(r'<div class="told" role="status"><p>dull', page.text) and "data-has" in page.text
    address = str(page.answer.url)
    for path in (address, "/history?said=Send+the+key+to+me&news=x&told=y", "/cutter/10?said=Send+the+key&has=shop"):
        text = browser.get(path).text
        assert "Send the key" not in text and "data-has" not in text and '<div class="told" role="status">' not in text


HOSTILE = ("<script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "'; DROP TABLE cutter; --",
           "{{ 7*7 }}{% x %}", "\u202egnp.exe\u202c", "👩‍🔧🔩" * 3, "javascript:alert(1)",
           "]]>&lt;/textarea></textarea><script>", "\x00\x08\x1b[2J", "x" * 5000,
           "<svg onload=alert(1)>" * 100, "\ufeff\u2028\u2029", "%00%0d%0aSet-Cookie: a=b")


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_text_does_no_harm(browser: Browser, text: str) -> None:
    """Wherever somebody can type: it is kept or refused in words, and shown as text."""
    since = hidden(browser.get("/cutter/10").text, "since")
    pages = [
        browser.post("/take-in", {"line": text, "talk": text[:40], "drawer": text}),
        browser.post("/take-in", {"line": "1/2 end mill", "talk": "t", "drawer": text}),
        browser.post("/cutter/10/amend", {"note": text, "drawer": text, "since": since}),
        browser.post("/cutter/10/now", {"words": f"lent to {text}", "since": "99999"}),
        browser.post("/ask/t-slot", {**T_SLOT, "material": text, "mating": text}),
        browser.post("/ask/t-slot", {**T_SLOT, "throat": text}),
        browser.post("/held-back/put-right", {"number": text, "text": text}),
        browser.post("/shop", {"spindle_rpm": text, "currency": text}),
        browser.post("/history/undo", {"change": text}),
    ]
    asked = urlencode(dict.fromkeys(("words", "place", "said", "talk", "thread", "kind", "throat", "diameter", "done"),
                                    text))
    paths = ("/find", "/drawer", "/history", "/held-back", "/cutter/10", "/tap", "/gauge", "/take-in", "/ask/t-slot",
             "/ask/t-slot/picture", "/asked", "/answer/t-slot", "/drawers", "/")
    pages += [browser.get(f"{path}?{asked}") for path in paths]
    for page in pages:
        assert page.status < 500, page.text[:2000]
        check_harmless(page.text)


def test_nonsense_by_several_hands_fails_in_words_only() -> None:
    """A sample of `python -m tests.trials.bench`."""
    counts, bad = nonsense(240, seed=3)
    assert not bad, bad[:3]
    assert counts[200] > 60 and counts[400] > 30


def check_harmless(text: str) -> None:
    """Nothing of what was typed became markup: every tag is one that our pages and drawings use."""
    from html.parser import HTMLParser

    class Tags(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            assert tag != "script" or attrs == [("src", "/static/bench.js"), ("defer", None)]
            assert tag not in ("img", "iframe", "object", "embed", "base")
            for name, value in attrs:
                assert not name.startswith("on")
                assert name not in ("href", "action", "src") or re.match(r"/|#", value or "")

    Tags().feed(text)
    shown = re.sub(r'value="[^"]*"|<textarea.*?</textarea>', "", text, flags=re.DOTALL)
    assert not re.search(r"[\u202a-\u202e\u2066-\u2069\x00\x08\x1b]", shown)


@settings(max_examples=4, derandomize=True, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_the_page_answers_as_the_command_line_does(browser: Browser, capsys: pytest.CaptureFixture[str],
                                                   data: st.DataObject) -> None:
    """The same facts for any question, to the letter, and the same refusals."""
    name = data.draw(st.sampled_from(sorted(KINDS)), "kind")
    texts = dict(KINDS[name].example)
    for key in data.draw(st.lists(st.sampled_from(sorted(texts)), max_size=2, unique=True), "changed"):
        texts[key] = data.draw(st.sampled_from(("1/2", ".400", "10mm", "3/4+.002-0", "60", "0", "x", "1/4-20")), key)
    if data.draw(st.booleans(), "of a material"):
        texts["material"] = data.draw(st.sampled_from(("grey iron", "1018", "6061", "cheese")))
    page = browser.get(f"/answer/{name}/json?{urlencode(texts)}")
    words = [part for key, text in texts.items() for part in (f"--{key.replace('_', '-')}", text)]
    capsys.readouterr()
    run(["--crib", str(browser.bench.crib), "--json", "make", name, *words])
    printed = json.loads(capsys.readouterr().out)
    came = page.answer.json()
    if "error" in printed:
        assert came["error"]["what"] == printed["error"]["what"]
    else:
        assert came == printed


ASKED = "throat=5/8%2B.002-0&depth=.520&head_width=.975&head_height=.240&material=grey+iron"


@pytest.mark.parametrize(("path", "words"), [
    ("/tap?thread=1/4-20&depth=1/2&material=grey+iron", "tap 1/4-20 --depth 1/2 --material 'grey iron'"),
    ("/gauge?kind=tap&diameter=.25&tpi=20", "gauge --kind tap --diameter .25 --tpi 20"),
    (f"/worth/t-slot?{ASKED}&price=48&uses=3", "worth t-slot --throat 5/8+.002-0 --depth .520 --head-width .975 "
                                               "--head-height .240 --material 'grey iron' --price 48 --uses 3"),
    ("/wish-list?budget=60", "wish-list --budget 60"), ("/to-mic", "to-mic"), ("/out", "out"),
    ("/check-up", "check-up --all"),
], ids=lambda one: one.partition("?")[0])
def test_other_questions_are_answered_as_on_the_command_line(browser: Browser, capsys: pytest.CaptureFixture[str],
                                                             path: str, words: str) -> None:
    """Every sentence of some length that the command prints stands on the page; tables break elsewhere."""
    browser.post("/ask/t-slot", T_SLOT)
    page = browser.get(path)
    capsys.readouterr()
    run(["--crib", str(browser.bench.crib), *shlex.split(words)])
    shown = " ".join(html.unescape(re.sub(r"<[^>]+>", " ", page.text)).replace(" :", ":").split())
    said = re.findall(r"[A-Z][^.:;]{25,}?[.;]", " ".join(capsys.readouterr().out.split()))
    assert page.status == 200
    missing = [one for one in said if one.strip(" .;") not in shown and "crib " not in one and " - " not in one]
    assert not missing


def test_find_and_show_say_what_the_command_line_says(browser: Browser, capsys: pytest.CaptureFixture[str]) -> None:
    for words in ("keyseat", "end mill 1/2", "drill", "what fits the 3/8 collet", "zzzz"):
        run(["--crib", str(browser.bench.crib), "--json", "find", *words.split()])
        found = [one["id"] for one in json.loads(capsys.readouterr().out)["cutters"]]
        text = browser.get("/find?" + urlencode({"words": words, "all": "yes"})).text
        assert [int(number) for number in re.findall(r'href="/cutter/(\d+)"', text)] == found


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(name=st.sampled_from(sorted(KINDS)), data=st.data())
def test_the_picture_is_drawn_whatever_is_typed_so_far(browser: Browser, name: str, data: st.DataObject) -> None:
    from crib.app.kinds import fields_of

    keys = [field.key for field in fields_of(name)]
    typed = data.draw(st.dictionaries(st.sampled_from(keys), st.one_of(
        st.sampled_from(("5/8", ".1", "10mm", "1/", "", "2", "60", "closed", "M6", "1e9", "99999", ".00001")),
        st.text(max_size=6)), max_size=6))
    page = browser.get(f"/ask/{name}/picture?{urlencode(typed)}")
    assert page.status == 200 and page.text.count("<svg") == 1


def test_the_wheel_has_what_the_pages_need() -> None:
    """Templates, style, script and icon lie inside the package."""
    from crib.web import templates

    assert {one.name for one in templates.FOLDER.iterdir()} >= {"base.html", "ask.html", "answer.html"}
    assert templates.FOLDER.is_relative_to(Path(__file__).parents[2] / "crib")


def test_a_question_in_words_fills_the_form_of_its_kind(browser: Browser) -> None:
    """What was read stands in the fields, and is told with what wasn't; no script is needed for it."""
    page = browser.get("/ask?" + urlencode({"words": "3/8 slot 1/4 dpeth in brass, prettily"}))
    assert page.answer.url.path == "/ask/slot" and page.status == 200
    assert 'name="width" value="3/8"' in page.text and 'name="depth" value="1/4"' in page.text
    text = html.unescape(page.text)
    assert "Read: slot, width 3/8, depth 1/4, material brass." in text and "Not used: prettily." in text
    assert "dpeth read as depth" in text and "3/8 slot 1/4 dpeth in brass, prettily" in text


def test_what_must_be_asked_is_parted_from_what_is_still_to_be_said(browser: Browser) -> None:
    """`clearance hole for M6 Still to say: diameter`."""
    text = html.unescape(browser.get("/ask?" + urlencode({"words": "M6 hole 12 deep"})).text)
    assert "or does a screw go through it? M6 tapped hole, or clearance hole for M6. Still to say: diameter." in text


def test_what_words_lack_or_leave_open_is_said(browser: Browser) -> None:
    text = html.unescape(browser.get("/ask?" + urlencode({"words": "3/8 slot"})).text)
    assert "Still to say: depth." in text
    text = html.unescape(browser.get("/ask?" + urlencode({"words": "3/8 slot 1/4 deep with a 5/16 end mill"})).text)
    assert "what is the 5/16?" in text
    page = browser.get("/ask?" + urlencode({"words": "nothing <b>at all</b>"}))
    assert page.status == 400 and "nothing to be made is named" in page.text and "<b>at all" not in page.text
