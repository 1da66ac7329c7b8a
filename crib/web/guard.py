"""Who may ask the bench page for what: checked before anything else looks at a request.

The host must be one of ours, so that no name that somebody points at this machine reaches it; what changes something
must come from a page of ours and carry its token; on the network whoever asks must have the key.
"""

from __future__ import annotations

import hmac
import re
from collections.abc import Mapping
from http.cookies import CookieError, SimpleCookie
from typing import Any
from urllib.parse import parse_qs, urlsplit

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from crib.web.bench import KEY, Bench

MOST_BYTES = 256 * 1024
"""So much may be sent to the page in one go; a long list goes in by `crib take-in --file`."""

POLICY = ("default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; "
          "form-action 'self'; frame-ancestors 'none'; base-uri 'none'")
_SAFE = ("GET", "HEAD")
_HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-store",
}
_ELSEWHERE = 403, "another site asked for this in the background, so it gets no answer"
_OPEN = ("/static/",)
"""Style and script hold nothing of the crib."""


class TooLarge(Exception):
    """More was sent than the page takes."""


class Guard:
    """Stands before the site."""

    def __init__(self, app: ASGIApp, bench: Bench) -> None:
        self._app, self._bench = app, bench

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        headers = {name.decode("latin-1").lower(): value.decode("latin-1") for name, value in scope["headers"]}
        send = _with_headers(send)
        if why := self._refused(scope, headers):
            await _plainly(send, *why)
        elif self._bench.key and (not self._is_known(scope, headers) or _has_key(scope)):
            await self._let_in(scope, send)
        else:
            await self._app(scope, _limited(receive), send)

    def _refused(self, scope: Scope, headers: Mapping[str, str]) -> tuple[int, str] | None:
        """Why nobody gets an answer to this, with its status."""
        host = headers.get("host", "")
        if host.lower() not in self._bench.hosts:
            return 421, "this page is not known by that name: use the address that crib bench prints"
        if scope["method"] in _SAFE:
            return _ELSEWHERE if _is_drawn_in(headers) else None
        if int_of(headers.get("content-length", "0")) > MOST_BYTES:
            return 413, f"that is more than {MOST_BYTES // 1024} kB; a long list goes in by crib take-in --file"
        if not _is_ours(headers, host):
            return 403, "that was not sent from a page of this bench, so nothing was done"
        return None

    def _is_known(self, scope: Scope, headers: Mapping[str, str]) -> bool:
        """Whether the cookie holds the key; style and script go to anybody."""
        return scope["path"].startswith(_OPEN) or is_same(_cookie(headers, self._bench.cookie), self._bench.key)

    async def _let_in(self, scope: Scope, send: Send) -> None:
        """Keep the key that the address holds as a cookie and go on without it in the address. The page goes on by
        itself, for a browser sends no strict cookie where it is led on from another place."""
        given = _asked(scope).get(KEY, [""])[0]
        if not is_same(given, self._bench.key):
            await _plainly(send, 401, "this bench has a key: scan the code that crib bench shows")
            return
        cookie = f"{self._bench.cookie}={self._bench.key}; Path=/; HttpOnly; SameSite=Strict"
        body = ('<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>crib</title>'
                '<meta name="viewport" content="width=device-width,initial-scale=1">'
                '<meta http-equiv="refresh" content="0;url=/"><link rel="stylesheet" href="/static/bench.css"></head>'
                '<body><main><h1>Welcome</h1><p><a class="button" href="/">Go on</a></p></main></body></html>')
        await _answer(send, 200, "text/html; charset=utf-8", body, {"set-cookie": cookie})


def _asked(scope: Scope) -> dict[str, list[str]]:
    return parse_qs(scope["query_string"].decode("latin-1"))


def _has_key(scope: Scope) -> bool:
    """Whether the key stands in the address of the first page, where it doesn't stay."""
    return scope["method"] == "GET" and scope["path"] == "/" and KEY in _asked(scope)


def is_same(given: str, wanted: str) -> bool:
    """Whether a secret was given, found out in a time that tells nothing of it.

    >>> is_same("abc", "abc"), is_same("abd", "abc"), is_same("é", "abc"), is_same("", "")
    (True, False, False, False)
    """
    return bool(wanted) and hmac.compare_digest(given.encode("utf-8", "replace"), wanted.encode())


def int_of(text: str) -> int:
    """A length that a header says; what is no number is too long.

    >>> int_of("12"), int_of("-1") > MOST_BYTES, int_of("1e3") > MOST_BYTES
    (12, True, True)
    """
    return int(text) if re.fullmatch(r"[0-9]{1,12}", text) else MOST_BYTES + 1


def _is_ours(headers: Mapping[str, str], host: str) -> bool:
    """Whether something was sent from a page of ours, as far as a browser says so; where it says nothing at all the
    token must do."""
    if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
        return False
    if (origin := headers.get("origin") or _origin_of(headers.get("referer"))) is None:
        return True
    return origin.lower() == f"http://{host.lower()}"


def _origin_of(referer: str | None) -> str | None:
    if not referer:
        return None
    try:
        parts = urlsplit(referer)
    except ValueError:
        return ""
    return f"{parts.scheme}://{parts.netloc}"


def _is_drawn_in(headers: Mapping[str, str]) -> bool:
    """Whether a page of another site asks for something in the background: it would learn nothing, but could have the
    bench plan for ever. Somebody who follows a link is welcome."""
    return (headers.get("sec-fetch-site", "none") not in ("same-origin", "none")
            and headers.get("sec-fetch-mode", "navigate") != "navigate")


def _cookie(headers: Mapping[str, str], name: str) -> str:
    try:
        found = SimpleCookie(headers.get("cookie", "")).get(name)
    except CookieError:
        return ""
    return found.value if found else ""


def _limited(receive: Receive) -> Receive:
    """What is sent, counted: a length that isn't said, or a wrong one, helps nobody."""
    so_far = 0

    async def counted() -> Message:
        nonlocal so_far
        message = await receive()
        so_far += len(message.get("body", b""))
        if so_far > MOST_BYTES:
            raise TooLarge
        return message

    return counted


def _with_headers(send: Send) -> Send:
    """What every answer says of itself, unless it says otherwise."""
    async def with_them(message: Message) -> None:
        if message["type"] == "http.response.start":
            there = list(message.get("headers", ()))
            names = {name.lower() for name, _ in there}
            there += [(name.encode(), value.encode()) for name, value in _HEADERS.items() if name.encode() not in names]
            message = {**message, "headers": there}
        await send(message)

    return with_them


async def _plainly(send: Send, status: int, says: str) -> None:
    await _answer(send, status, "text/plain; charset=utf-8", says + "\n", {})


async def _answer(send: Send, status: int, kind: str, body: str, more: Mapping[str, Any]) -> None:
    data = body.encode()
    headers = {"content-type": kind, "content-length": str(len(data)), **more}
    await send({"type": "http.response.start", "status": status,
                "headers": [(name.encode(), value.encode()) for name, value in headers.items()]})
    await send({"type": "http.response.body", "body": data})
