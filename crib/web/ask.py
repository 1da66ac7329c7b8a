"""Asking what can make something: the form of a kind, its picture, the answer, and the questions so far."""

from __future__ import annotations

from functools import cache
from itertools import takewhile
from typing import Any
from urllib.parse import urlencode

from starlette.responses import Response

from crib.app import asked as past
from crib.app import kinds as known
from crib.app.asking import Reply, remember
from crib.app.asking import ask as find_out
from crib.app.in_words import Question, checked, hear, lacking
from crib.app.opening import Crib
from crib.app.sketch import Sketch, example, sketch
from crib.findings.errors import CribError, failure
from crib.findings.finding import Finding
from crib.findings.verdicts import ANSWERS, WORDS, Verdict
from crib.pages.blocks import Block, Paragraph
from crib.pages.more import More
from crib.pages.sheet import in_parts
from crib.pages.sketch import outlined
from crib.render.html.page import fragment
from crib.render.json.answer import advice_json
from crib.render.json.findings import error_json
from crib.render.svg.sketch import sketch as drawing_of
from crib.render.words import told
from crib.web.bench import News
from crib.web.call import Call

SIGNS = {"as drawn": "✓", "extra passes": "✓", "compromise": "≈", "measure first": "?", "cannot": "✗", "refer": "!"}
_REFUSED = 12
_RELAX = "relax"
_WORDS = "words"
"""The field that a question is typed into in words."""


def kinds(call: Call) -> Response:
    """The kinds of feature, by picture; a question in words leads to its form, filled with what was read."""
    failed = None
    if words := call.text(_WORDS):
        question = hear(words)
        if question.kind:
            return call.go(f"/ask/{question.kind}", news=News(said=_read_as(question, units_of(call))),
                           **question.texts, **{_WORDS: words})
        failed = _in_fields(_asks_of(question), units_of(call))
    return call.page("kinds.html", 400 if failed else 200, kinds=[(name, _example(name)) for name in known.NAMES],
                     words=words, wrong_words=failed)


def _asks_of(question: Question) -> Finding | None:
    """What must be asked about a question in words."""
    try:
        checked(question)
    except CribError as error:
        return error.finding
    return None


def _read_as(question: Question, units: str) -> str:
    """What was read of a question in words, what wasn't, and what is still to be said."""
    found = _asks_of(question)
    lacks = ", ".join(one.name for one in lacking(question.kind, question.texts, units))
    parts = [f"Read: {question.echo}."]
    parts += [f"Spelt: {word} read as {meant}." for word, meant in question.read_as.items()]
    parts += [f"Not used: {', '.join(question.unused)}."] if question.unused else []
    parts += map(_ended, (*map(str, question.asks), told(found, units)[1])) if found else []
    return " ".join([*parts, f"Still to say: {lacks}." if lacks else ""]).strip()


def _ended(text: str) -> str:
    """Words that are parted from what stands behind them.

    >>> _ended("which size is it?"), _ended("say its name")
    ('which size is it?', 'say its name.')
    """
    return text + ("" if text.endswith((".", "?", "!")) else ".")


@cache
def _example(name: str) -> str:
    feature = example(name)
    return drawing_of(outlined(feature.outline, feature.down is not None), "in", f"of-{name}", with_sizes=False,
                      is_titled=False, wide=45.0, high=30.0)


def form(call: Call) -> Response:
    """The form of a kind, as far as it is filled in."""
    return _form(call)


def _form(call: Call, failed: Finding | None = None) -> Response:
    name = kind_of(call)
    units = units_of(call)
    asks = known.form_of(name)
    texts = texts_of(call)
    first = tuple(takewhile(lambda one: one.is_needed or one.example, asks))
    first += tuple(one for one in asks if one not in first and one.field.key in _ALWAYS)
    rest = tuple(one for one in asks if one not in first)
    standards = [one.field.key for one in asks if known.is_standard(name, one.field.key)]
    return call.page("ask.html", 400 if failed else 200, name=name, first=first, rest=rest,
                     opened=any(one.field.key in texts for one in rest), texts=texts, failed=_in_fields(failed, units),
                     units=units, materials=known.materials(), standards=standards, words=call.text(_WORDS),
                     **_picture(name, texts, units))


_ALWAYS = ("material", "length", "ends", "through", "bolt", "shaft")
"""What is asked at once besides what is needed."""


def picture(call: Call) -> Response:
    """The picture alone, for who is typing."""
    return call.page("picture.html", **_picture(kind_of(call), texts_of(call), units_of(call)))


def _picture(name: str, texts: dict[str, str], units: str) -> dict[str, Any]:
    found: Sketch = sketch(name, texts, units)
    scene = outlined(found.feature.outline, found.feature.down is not None)
    drawing = drawing_of(scene, units, "asked", with_sizes=not found.filled, wide=60.0, high=45.0)
    return {"drawing": drawing, "filled": [key.replace("_", " ") for key in found.filled],
            "wrong": _in_fields(found.failed, units)}


def ask(call: Call) -> Response:
    """Find out, and have the question remembered; on to its answer."""
    name, texts = kind_of(call), texts_of(call)
    try:
        with call.open() as crib:
            remember(crib, reply_to(call, crib, name, texts))
    except CribError as error:
        return _form(call, error.finding)
    return call.go(f"/answer/{name}", news=News(f"ask-{name}"), **texts)


def answer(call: Call) -> Response:
    """The answer to a question: found out now, or as it was found a moment ago."""
    name, texts = kind_of(call), texts_of(call)
    with call.open() as crib:
        reply = reply_to(call, crib, name, texts)
    advice = reply.advice
    shop = reply.enquiry.shop
    first, parts = in_parts(reply.found, _REFUSED, shop)
    body = [one for one in first if not _is_the_verdict(one)]
    folded = [(_FOLDED[one], fragment(part, shop.units, 100 * at))
              for at, (one, part) in enumerate(parts.items(), start=1)]
    return call.page("answer.html", name=name, query=urlencode(texts), answer=advice.answer, says=WORDS[advice.answer],
                     sign=SIGNS[advice.answer], ran_out=reply.ran_out, has_plan=bool(advice.plans),
                     can_buy=advice.answer not in ("as drawn", "refer"),
                     blocks=fragment(body, shop.units), folded=folded)


def document(call: Call) -> Response:
    """The answer as `crib make --json` prints it."""
    try:
        with call.open() as crib:
            reply = reply_to(call, crib, kind_of(call), texts_of(call))
    except CribError as error:
        return call.json({"error": error_json(error.finding, units_of(call))}, 400)
    return call.json(advice_json(reply.advice, reply.enquiry.shop.units, _REFUSED))


def asked(call: Call) -> Response:
    """The questions that the crib remembers."""
    with call.open() as crib:
        every, remembers = past.listed(crib)
    rows = [(one, urlencode(one.texts), WORDS[Verdict(one.answer)] if one.answer in ANSWERS else one.answer,
             ", ".join(f"{key.replace('_', ' ')} {text}" for key, text in one.texts.items())) for one in every]
    return call.page("asked.html", rows=rows, remembers=remembers)


def forget(call: Call) -> Response:
    """Forget a question for good."""
    with call.open() as crib:
        past.forget(crib, call.text("number"))
    return call.go("/asked")


def reply_to(call: Call, crib: Crib, name: str, texts: dict[str, str]) -> Reply:
    """The reply to a question: as it was a moment ago, where nothing was done to the crib since."""
    asked = {key: text for key, text in texts.items() if key != _RELAX}

    key = (name, tuple(sorted(texts.items())), crib.units, crib.last_that_counts())

    def anew() -> Reply:
        with call.bench.planning:  # whoever waited for the same question takes that answer
            return call.bench.replies.get(key, lambda: find_out(crib, name, asked, _REFUSED, relax=_RELAX in texts))

    return call.bench.replies.get(key, anew)


def kind_of(call: Call) -> str:
    """The kind that the address names. Raises `CribError` for one that there isn't."""
    name = str(call.request.path_params["kind"])
    known.check(name)
    return name


def texts_of(call: Call) -> dict[str, str]:
    """What is said of the feature, by key."""
    keys = {one.key for one in known.fields_of(kind_of(call))} | {_RELAX}
    usual = {"ends": "open", "through": "no"}
    return {key: text for key, text in call.texts.items() if key in keys and usual.get(key) != text}


def units_of(call: Call) -> str:
    """The units of what is typed."""
    from crib.app.opening import units_of as shown_in

    return shown_in(call.bench.crib, call.bench.units)


_FOLDED = {More.STEPS: "Hold, touch off, dials, remarks", More.WHY: "Why this way, and what it costs",
           More.OTHERS: "What would also do", More.REFUSED: "Why not with the others"}
"""What stands over what is read when it is wanted."""


def _is_the_verdict(one: Block) -> bool:
    """What stands at the top of the page already."""
    return isinstance(one, Paragraph) and one.label == "Answer"


def _in_fields(found: Finding | None, units: str) -> Finding | None:
    """A failure as a form says it: its fields by their names, not as options."""
    if found is None:
        return None
    what, help = told(found, units)
    if "crib " in help:
        return found
    return failure(found.id, what.replace("--", ""), found.read, help.replace("--", "").replace("-", " ")
                   if "--" in help else help)
