"""Who gets an answer of the bench page and who doesn't. What a browser sends along is by the Fetch standard (WHATWG:
Origin, Sec-Fetch-Site) and RFC 6265bis (SameSite cookies)."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from crib.store import open_crib
from crib.web import guard
from crib.web.site import _DEEDS, _PAGES
from tests.web.conftest import HOST, Browser

PATHS = {"{kind}": "t-slot", "{number}": "10"}


def filled(path: str) -> str:
    for slot, value in PATHS.items():
        path = path.replace(slot, value)
    return path


def last_change(browser: Browser) -> int:
    with open_crib(browser.bench.crib) as crib:
        return crib.last_change()


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8737", "127.0.0.1", "127.0.0.1:80", "", "0.0.0.0:8737",
                                  "127.0.0.1:8737.evil.example", "LOCALHOST:8738"])
def test_another_host_name_is_refused(onlooker: Browser, host: str) -> None:
    """A name that somebody points at this machine (DNS rebinding) reaches nothing."""
    assert onlooker.get("/cutter/10", headers={"host": host}).status == 421


@pytest.mark.parametrize("host", [HOST, "localhost:8737", "LocalHost:8737"])
def test_our_own_names_do(onlooker: Browser, host: str) -> None:
    assert onlooker.get("/cutter/10", headers={"host": host}).status == 200


@pytest.mark.parametrize("path", [filled(path) for path in _DEEDS])
@pytest.mark.parametrize("headers", [
    {"origin": "http://evil.example"}, {"origin": "null"}, {"origin": f"https://{HOST}"}, {"origin": "http://127.0.0.1"},
    {"sec-fetch-site": "cross-site"}, {"sec-fetch-site": "same-site"}, {"origin": "", "referer": "http://evil.example/x"},
], ids=str)
def test_another_origin_changes_nothing(onlooker: Browser, path: str, headers: dict[str, str]) -> None:
    """Not even with the token, should it ever get out."""
    before = last_change(onlooker)
    typed = {"line": "1/2 drill", "words": "dull", "change": "1", "number": "1", "condition": "dull", "dro": "no"}
    sent = {key: value for key, value in headers.items() if value}
    if "origin" in headers:
        sent["sec-fetch-site"] = "none"
    answer = onlooker.client.post(path, data={"token": onlooker.bench.token, **typed}, headers=sent)
    assert answer.status_code == 403
    assert last_change(onlooker) == before


def test_another_site_cant_keep_the_bench_busy(browser: Browser) -> None:
    """An image of another site's page has nothing planned; a link that somebody follows leads here."""
    for mode, status in (("no-cors", 403), ("cors", 403), ("navigate", 200)):
        sent = {"sec-fetch-site": "cross-site", "sec-fetch-mode": mode}
        assert browser.get("/wish-list", headers=sent).status == status


@pytest.mark.parametrize("path", [filled(path) for path in _DEEDS])
@pytest.mark.parametrize("token", ["", "wrong", "é", "x" * 5000])
def test_without_the_token_nothing_is_done(onlooker: Browser, path: str, token: str) -> None:
    before = last_change(onlooker)
    page = onlooker.post(path, {"token": token, "line": "1/2 drill", "words": "dull", "change": "1", "since": "999"})
    assert page.status == 403
    assert last_change(onlooker) == before


def test_a_page_from_before_a_new_start_keeps_what_was_typed(browser: Browser) -> None:
    """Its token is an old one: nothing is done, and what was typed can be sent again."""
    page = browser.post("/take-in", {"token": "old", "line": "3/8 end mill <4 flutes>", "talk": "abc"})
    assert page.status == 403
    assert "3/8 end mill &lt;4 flutes&gt;" in page.text and browser.bench.token in page.text
    page = browser.post("/sheet/t-slot?throat=5/8", {"token": "old", "box": ["step1.1", "step1.2"]})
    assert page.status == 403 and all(f'value="step1.{at}"' in page.text for at in (1, 2))
    assert ">5/8</textarea>" in page.text


@pytest.mark.parametrize("path", [filled(path) for path in _DEEDS if path not in _PAGES])
def test_what_changes_something_is_no_address_to_follow(onlooker: Browser, path: str) -> None:
    assert onlooker.get(path).status in (404, 405)


@pytest.mark.parametrize("path", [filled(path) for path in _PAGES])
def test_looking_at_a_page_changes_nothing(browser: Browser, path: str) -> None:
    """Another site may lead a browser to any address."""
    before = Path(str(browser.bench.crib)).read_bytes()
    browser.get(path + "?words=dull&line=x&throat=5/8&depth=.52&head_width=.975&head_height=.24&number=1&change=1")
    assert Path(str(browser.bench.crib)).read_bytes() == before


@pytest.mark.parametrize("path", [filled(path) for path in _PAGES] + ["/nope", "/static/bench.js", "/cutter/99999"])
def test_every_answer_says_what_a_browser_may_do_with_it(onlooker: Browser, path: str) -> None:
    headers = onlooker.get(path).answer.headers
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy and "unsafe" not in policy and "frame-ancestors 'none'" in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["cache-control"] == ("no-cache" if "static" in path else "no-store")
    assert headers["referrer-policy"] == "same-origin"


@pytest.mark.parametrize("path", [filled(path) for path in _PAGES if "json" not in path])
def test_no_page_holds_a_script_or_a_handler(onlooker: Browser, path: str) -> None:
    """So the policy takes nothing away, and all of it works without a script."""
    text = onlooker.get(path).text
    assert set(re.findall(r"<script[^>]*>", text)) <= {'<script src="/static/bench.js" defer>'}
    assert not re.search(r"<[^>]+\s(?:on[a-z]+|style)\s*=", text)


def test_too_much_is_refused(browser: Browser) -> None:
    """By the length that is said, and by what comes where none is said."""
    much = "x" * (guard.MOST_BYTES + 1)
    assert browser.post("/take-in", {"line": much}).status == 413
    pieces = (f"line={much}"[at: at + 9000].encode() for at in range(0, len(much), 9000))
    answer = browser.client.post("/take-in", content=pieces, headers={
        "content-type": "application/x-www-form-urlencoded", "origin": f"http://{HOST}"})
    assert answer.status_code == 413
    fields = "&".join(f"a{at}=1" for at in range(3000))
    answer = browser.client.post("/take-in", content=fields, headers={
        "content-type": "application/x-www-form-urlencoded", "origin": f"http://{HOST}"})
    assert answer.status_code in (400, 413)
    assert not Path(str(browser.bench.crib)).read_bytes().count(b"xxxx" * 100)


def test_on_the_network_a_key_is_needed(sample: Path, at: Callable[..., Browser]) -> None:
    browser = at(sample, key="let-me-in-please")
    for path in map(filled, _PAGES):
        assert browser.get(path).status == 401
    assert browser.post("/take-in", {"line": "1/2 drill"}).status == 401
    for wrong in ("", "let-me-in", "let-me-in-please%00", "LET-ME-IN-PLEASE", "%C3%A9", "let-me-in-please&key="):
        assert browser.get(f"/?key={wrong}").status in (401, 200 if wrong.endswith("&key=") else 401)
        browser.client.cookies.clear()
    assert browser.get("/cutter/10", headers={"cookie": "crib_8737=wrong"}).status == 401
    page = browser.get("/?key=let-me-in-please")
    cookie = page.answer.headers["set-cookie"]
    assert page.status == 200 and "HttpOnly" in cookie and "SameSite=Strict" in cookie and "key=" not in page.text
    assert browser.get("/cutter/10").status == 200
    assert browser.get("/static/bench.css").status == 200
    again = browser.get("/?key=let-me-in-please").text
    assert "url=/" in again and "let-me-in" not in again


def test_the_key_is_compared_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    """By the standard library's comparison that takes as long whatever differs."""
    asked: list[tuple[bytes, bytes]] = []
    monkeypatch.setattr(guard.hmac, "compare_digest", lambda a, b: asked.append((a, b)) or a == b)
    assert guard.is_same("abc", "abc") and not guard.is_same("ab", "abc")
    assert len(asked) == 2
