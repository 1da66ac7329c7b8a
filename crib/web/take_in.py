"""Taking cutters in one at a time, and putting right what was held back."""

from __future__ import annotations

import secrets

from starlette.responses import Response

from crib.app import held_back as held
from crib.app.opening import begin_in
from crib.app.talks import Talk
from crib.findings.errors import CribError, failure
from crib.findings.finding import Finding
from crib.web.bench import News
from crib.web.call import Call
from crib.web.looking import row


def talk(call: Call) -> Response:
    """The line for the next cutter, and what was said so far, the last first."""
    return _page(call)


def say(call: Call) -> Response:
    """Take in one line, or hold it back."""
    text, name = call.typed.get("line", ""), call.text("talk") or secrets.token_urlsafe(9)
    if not text.strip():
        return _page(call, failure("usage", "nothing was typed", "", "a cutter in your own words"))
    beside = {"drawer": call.text("drawer")} if call.text("drawer") else {}
    began = not call.bench.has_crib()
    try:
        with call.open(create=True) as crib:
            if began:
                begin_in(crib, call.bench.units)
            call.bench.talks.get(name, Talk).say(crib, text, call.number("line_no"), beside)
    except CribError as error:
        return _page(call, error.finding)
    return call.go("/take-in", talk=name, drawer=call.text("drawer"), news=News("line"))


def _page(call: Call, failed: Finding | None = None) -> Response:
    name = call.text("talk") or secrets.token_urlsafe(9)
    said = call.bench.talks.get(name, Talk).said
    last = [cutter for cutter in (*said[-1].taken, *said[-1].amended)] if said else []
    return call.page("take_in.html", 400 if failed else 200, talk=name, outcomes=said[::-1], row=row(last[:6]),
                     drawer=call.text("drawer"), failed=failed, line=call.typed.get("line", "") if failed else "",
                     began=not call.bench.has_crib())


def held_back(call: Call) -> Response:
    """Every line that couldn't be taken in."""
    return _held_back(call)


def put_right(call: Call) -> Response:
    """A line in better words."""
    text = call.text("text")
    if not text:
        return _held_back(call, failure("usage", "nothing was typed", "", "the whole line, or the word it lacks"))
    try:
        with call.open() as crib:
            came = held.put_right(crib, held.line(crib, call.text("number")), text, {})
    except CribError as error:
        return _held_back(call, error.finding)
    number = call.text("number")
    return call.go("/held-back", f"line-{number}", news=News(f"held-back-{number}", came.says))


def let_go(call: Call) -> Response:
    """Take a line off the list; the history keeps it."""
    with call.open() as crib:
        line = held.line(crib, call.text("number"))
        held.let_go(crib, line)
    return call.go("/held-back", news=News(said=f"taken off the list: {line.text[:160]}; the history keeps it"))


def _held_back(call: Call, failed: Finding | None = None) -> Response:
    with call.open() as crib:
        lines = held.lines(crib)
    return call.page("held_back.html", 400 if failed else 200, lines=lines, failed=failed,
                     typed=call.typed if failed else {})
