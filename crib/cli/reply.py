"""Waiting for the answer to a question, showing it, and having it remembered: never in the answer's way."""

from __future__ import annotations

import gc
from collections.abc import Callable, Collection, Iterator
from contextlib import AbstractContextManager, contextmanager

from crib.app import asking
from crib.app.asking import Reply
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.progress import telling
from crib.findings.errors import CribError
from crib.light.hints import TYPE_CHECKING
from crib.pages.more import More

if TYPE_CHECKING:
    from crib.app.opening import Crib

_SCREEN = 40
"""Lines that an answer has at the most, if it can be told in them."""


def around(asked: Asked) -> Callable[[Callable[[], str]], AbstractContextManager[None]]:
    """Tell how far the search is, where somebody waits for it."""
    @contextmanager
    def waiting(says: Callable[[], str]) -> Iterator[None]:
        gc.freeze()  # what was read stays; looking through it for rubbish costs a tenth of a large crib's answer
        with telling(says, not asked.json):
            yield

    return waiting


def show(asked: Asked, reply: Reply, refused: int | None, more: Collection[More] = (), patience: float = 0.0) -> None:
    """The answer, and whether there may be a better one."""
    if reply.ran_out:
        out.note(f"crib: not everything was tried in {patience:g} s; --patience {4 * patience:g} goes on for longer")
    if reply.stopped:
        out.note("crib: stopped: this is what was found until then; there may be a better one")
    shop = reply.enquiry.shop
    if asked.json:
        from crib.render.json.answer import advice_json

        out.answer(asked, advice_json(reply.advice, shop.units, refused="all" if refused is None else refused))
    else:
        out.answer(asked, None, page(reply, refused, more, len(asked.heard.lines) + 1 if asked.heard else 0))


def page(reply: Reply, refused: int | None, more: Collection[More] = (), above: int = 0) -> list[str]:
    """The page of an answer: one screen, and what was asked for beside it. `above`: how many lines of the screen stand
    over it."""
    from crib.pages.sheet import sheet

    shop = reply.enquiry.shop
    return out.shown(sheet(reply.found, refused, shop, more), shop.units, None if more else _SCREEN - above)


def remember(crib: Crib, reply: Reply) -> None:
    """Have a question remembered by the crib that answered it. Where it can't be, a note says so and no more."""
    out.flush()
    try:
        asking.remember(crib, reply)
    except CribError as error:
        from crib.render.words import told

        out.note(f"this question won't be remembered: {told(error.finding, crib.units)[0]}")
