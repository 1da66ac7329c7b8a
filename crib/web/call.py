"""What is asked of a route, and how its answer is shown: every way in and out of a page goes through here."""

from __future__ import annotations

import secrets
import traceback
from collections.abc import Awaitable, Callable, Sequence
from functools import cached_property, wraps
from typing import Any
from urllib.parse import urlencode

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData, UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response

from crib.app.opening import Crib, units_for
from crib.findings import notices
from crib.findings.errors import CribError, failure
from crib.findings.finding import Finding
from crib.light.records import dataclass
from crib.render.json.findings import error_json
from crib.web.bench import Bench, News
from crib.web.guard import TooLarge, is_same
from crib.web.templates import html

TOKEN = "token"
"""The field of a form that tells that a page of ours sent it."""

_MOST_FIELDS = 400
_UNSEEN = ("since", "talk", "line_no", "before", "box", "number", "change", "quietly")
"""What forms carry without its being typed."""

_STATUS = {"changed": 409, "no-cutter": 404, "no-line": 404, "no-change": 404, "no-question": 404, "no-crib": 404,
           "no-page": 404, "no-part": 404, "locked": 503, "bug": 500, "token": 403}

Route = Callable[["Call"], Response]


@dataclass(frozen=True)
class Call:
    """One request: the bench that is asked, and what was typed, field by field."""

    bench: Bench
    request: Request
    sent: Sequence[tuple[str, str]]

    @cached_property
    def typed(self) -> dict[str, str]:
        """What was typed, by field, over what the address says; of a field that is named twice the last."""
        return {**self.request.query_params, **dict(self.sent)}

    def all(self, name: str) -> list[str]:
        """Everything that was typed or ticked under one name."""
        return [text for field, text in self.sent if field == name]

    @cached_property
    def texts(self) -> dict[str, str]:
        """What was typed into a form, without what is empty and without what is the form's own."""
        return {name: text for name, text in self.typed.items() if text.strip() and name != TOKEN}

    def text(self, name: str) -> str:
        """What was typed into one field."""
        return self.typed.get(name, "").strip()

    def number(self, name: str) -> int:
        """A whole number that is part of the address or of a form; 0 for what is none."""
        text = str(self.request.path_params.get(name, self.typed.get(name, "")))
        return int(text) if text.isascii() and text.isdigit() and len(text) <= 18 else 0

    def open(self, create: bool = False) -> Crib:
        """The crib, for this request. Raises `CribError`."""
        return self.bench.open(create)

    def page(self, template: str, status: int = 200, /, **values: Any) -> Response:
        """A page by the name of its template; what failed is put into words for it."""
        values = {name: self._worded(one) if isinstance(one, Finding) else one for name, one in values.items()}
        news = self.bench.news.take(self.request.query_params.get("news", "")) or News()
        shared = {"token": self.bench.token, "here": self.request.url.path, "notices": notices.take(), **news._asdict()}
        return HTMLResponse(html(template, **{**shared, **values}), status)

    def _worded(self, found: Finding) -> dict[str, Any]:
        return error_json(found, units_for(found, self.bench.crib, self.bench.units))

    def json(self, document: Any, status: int = 200) -> Response:
        """The document that the command line prints with `--json`."""
        return JSONResponse(document, status)

    def go(self, to: str, anchor: str = "", news: News | None = None, **query: str | int) -> Response:
        """On to another page, which is asked for anew: what was sent isn't sent twice where it is loaded again. It
        tells the `news`, once: they don't stand in the address, where anybody could write some."""
        if news is not None:
            query["news"] = secrets.token_urlsafe(9)
            self.bench.news.get(query["news"], lambda: news)
        asked = urlencode({name: text for name, text in query.items() if text != ""})
        return RedirectResponse(to + (f"?{asked}" if asked else "") + (f"#{anchor}" if anchor else ""), 303)

    def failed(self, found: Finding) -> Response:
        """What went wrong, with all that was typed."""
        sent = (*self.request.query_params.multi_items(), *self.sent) if self.request.method == "POST" else ()
        kept = [(name, text) for name, text in sent if text.strip() and name != TOKEN]
        unseen = [one for one in kept if one[0] in _UNSEEN]
        return self.page("failed.html", _STATUS.get(found.id, 400), found=found, unseen=unseen,
                         kept=[one for one in kept if one not in unseen])


def route(does: Route) -> Callable[[Request], Awaitable[Response]]:
    """A route that may take its time and may fail: what was typed is shown again whatever happens."""
    @wraps(does)
    async def answered(request: Request) -> Response:
        bench: Bench = request.app.state.bench
        try:
            form = await _form(request)
        except TooLarge:
            return Response("that is too much to send in one go; a long list goes in by crib take-in --file\n", 413,
                            media_type="text/plain")
        call = Call(bench, request, [(name, await _text(one)) for name, one in form.multi_items()])
        if request.method == "POST" and not is_same(dict(call.sent).get(TOKEN, ""), bench.token):
            return call.failed(_STALE)
        return await run_in_threadpool(_answered, does, call)

    return answered


_STALE = failure("token", "this page is from before the bench page was started anew; nothing was done yet", "",
                 "look whether this is what you want, and send it again")


def _answered(does: Route, call: Call) -> Response:
    try:
        return does(call)
    except CribError as error:
        return call.failed(error.finding)
    except Exception as error:
        traceback.print_exc()
        return call.failed(failure("bug", f"the program failed: {type(error).__name__}: {error}", "",
                                   "that is a fault of the program; nothing that you typed is lost"))


async def _text(one: UploadFile | str) -> str:
    """What was typed; of a file that was sent its text, nothing where it is none."""
    return one if isinstance(one, str) else (await one.read()).decode("utf-8-sig", "replace")


async def _form(request: Request) -> FormData:
    """What was typed, in the address or in a form. Raises `TooLarge`."""
    if request.method != "POST":
        return FormData()
    try:
        return await request.form(max_files=1, max_fields=_MOST_FIELDS)
    except HTTPException as error:
        raise TooLarge from error
