"""The site of a bench page: its addresses, and the guard before them."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from pathlib import Path

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import FileResponse, PlainTextResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from crib.findings.errors import failure
from crib.web.bench import Bench
from crib.web.call import Call, route
from crib.web.guard import Guard

_STATIC = Path(__file__).parent / "static"
_KINDS = {"bench.css": "text/css", "bench.js": "text/javascript", "icon.svg": "image/svg+xml"}

_PAGES = {
    "/": "home.home",
    "/more": "home.more",
    "/phone": "home.phone",
    "/ask": "ask.kinds",
    "/ask/{kind}": "ask.form",
    "/ask/{kind}/picture": "ask.picture",
    "/answer/{kind}": "ask.answer",
    "/answer/{kind}/json": "ask.document",
    "/sheet/{kind}": "sheets.sheet",
    "/sheet/{kind}/print": "sheets.to_print",
    "/parts": "parts.parts",
    "/parts/changes": "parts.changed",
    "/part": "part.part",
    "/part/sheet": "part_sheets.sheet",
    "/part/print": "part_sheets.to_print",
    "/part/json": "part.document",
    "/part/toml": "parts.download",
    "/asked": "ask.asked",
    "/drawers": "looking.drawers",
    "/drawer": "looking.drawer",
    "/find": "looking.find",
    "/cutter/{number}": "cutters.cutter",
    "/take-in": "take_in.talk",
    "/held-back": "take_in.held_back",
    "/history": "history.history",
    "/shop": "shop.shop",
    "/tap": "tools.tap",
    "/gauge": "tools.gauge",
    "/worth/{kind}": "tools.worth",
    "/wish-list": "tools.wish_list",
    "/to-mic": "tools.to_mic",
    "/check-up": "tools.check_up",
    "/out": "tools.out",
}
_DEEDS = {
    "/ask/{kind}": "ask.ask",
    "/sheet/{kind}": "sheets.keep",
    "/parts": "parts.keep",
    "/part/tick": "part.tick",
    "/part/measured": "part.measured",
    "/part/add": "part.add",
    "/part/sheet": "part_sheets.keep",
    "/asked/forget": "ask.forget",
    "/cutter/{number}/amend": "cutters.amend",
    "/cutter/{number}/now": "cutters.now",
    "/take-in": "take_in.say",
    "/held-back/put-right": "take_in.put_right",
    "/held-back/let-go": "take_in.let_go",
    "/history/undo": "history.undo",
    "/shop": "shop.change",
}


def site(bench: Bench) -> ASGIApp:
    """The pages of a bench."""
    routes = [Route(path, route(_late(does)), methods=["GET"]) for path, does in _PAGES.items()]
    routes += [Route(path, route(_late(does)), methods=["POST"]) for path, does in _DEEDS.items()]
    routes.append(Route("/static/{name}", _file, methods=["GET"]))
    app = Starlette(routes=routes, exception_handlers={HTTPException: _no_page})
    app.state.bench = bench
    return Guard(app, bench)


def _late(does: str) -> Callable[[Call], Response]:
    """A route by its module and name, imported when it is first asked: the first page doesn't wait for the planner."""
    module, name = does.split(".")

    def answered(call: Call) -> Response:
        answer: Response = getattr(import_module(f"crib.web.{module}"), name)(call)
        return answer

    return answered


async def _file(request: Request) -> Response:
    """Style, script and icon; there are no others."""
    name = request.path_params["name"]
    if name not in _KINDS:
        return PlainTextResponse("there is no such file\n", 404)
    return FileResponse(_STATIC / name, media_type=_KINDS[name], headers={"cache-control": "no-cache"})


async def _no_page(request: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 404
    what = "there is no such page here" if status == 404 else "that can't be done in this way"
    found = failure("no-page", what, request.url.path[:80], "the bar at the top leads on")
    answer = Call(request.app.state.bench, request, ()).failed(found)
    answer.status_code = status
    return answer
