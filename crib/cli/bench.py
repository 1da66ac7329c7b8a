"""`crib bench`: the bench page, for a phone, a tablet or a laptop beside the mill."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.web import serving
from crib.web.serving import PORT

if TYPE_CHECKING:
    from crib.web.bench import Bench


def bench(
    ctx: typer.Context,
    network: Annotated[bool, typer.Option("--on-the-network", help="Let other devices in your own network open it, by "
                                          "an address with a key; without it only this machine can")] = False,
    host: Annotated[str | None, typer.Option(help="Listen at this address of the machine", metavar="ADDRESS")] = None,
    port: Annotated[int, typer.Option(help="Listen at this port", metavar="N")] = PORT,
    show: Annotated[bool, typer.Option("--open", help="Open it in this machine's browser")] = False,
) -> Status:
    """Serve the crib as a small site until Ctrl-C ends it: ask, look, take in, measure, tick off."""
    from crib.app.opening import crib_exists

    asked: Asked = ctx.obj
    if network and host is not None:
        raise CribError("usage", "--on-the-network and --host don't go together", host, "one of them")
    if crib_exists(asked.crib):
        asked.open().close()
    at = serving.EVERYWHERE if network else serving.HERE if host is None else host
    listener = serving.listening(at, port)
    page = serving.bench_at(at, port, asked.crib, asked.units)
    out.answer(asked, {"address": page.address, "key": page.key or None, "open": page.entrance}, lambda: _told(page))
    out.flush()
    if show:
        _opened(page.entrance)
    serving.serve(page, listener)
    return Status.ANSWERED


def _told(page: Bench) -> list[str]:
    if not page.key:
        return [f"the bench page is at {page.address}", "only this machine reaches it; Ctrl-C ends it"]
    from crib.web.code import in_characters

    code = in_characters(page.entrance).splitlines() if out.can_draw() else []
    return [*code, f"the bench page is at {page.entrance}",
            "whoever has this address has the crib: use it in your own network only; Ctrl-C ends it"]


def _opened(address: str) -> None:
    import webbrowser

    if not webbrowser.open(address):
        out.note(f"no browser was found on this machine: open {address} in one")
