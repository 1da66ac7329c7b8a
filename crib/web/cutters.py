"""One cutter: all that is known of it, what it measures, what became of it."""

from __future__ import annotations

from typing import Any

from starlette.responses import Response

from crib.app import life, looking
from crib.app.changes import in_rows
from crib.app.opening import Crib, Cutter
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.intake.attributes import ATTRIBUTES, choices_of
from crib.pages.card import overruled
from crib.pages.words import value_of
from crib.render.words import words
from crib.web.bench import News
from crib.web.call import Call
from crib.web.looking import row

_SIZES = tuple(key for key in ATTRIBUTES if key.endswith(("_mm", "_deg")))
_ASIDE = ("measured", "stamped", "assumed", "questions", "away")
_MEASURED = "measured:"
"""What the name of a box begins with that says that a size was measured."""


def cutter(call: Call) -> Response:
    """All that is known of a cutter, with what changes it."""
    with call.open() as crib:
        return _page(call, crib)


def amend(call: Call) -> Response:
    """Change what is known of it; what is left empty stays as it is."""
    typed = {key: text for key, text in call.texts.items() if key in ATTRIBUTES}
    measured = [name.removeprefix(_MEASURED) for name in call.texts if name.startswith(_MEASURED)]
    texts = typed | ({"measured": ",".join(measured)} if measured else {})
    with call.open() as crib:
        try:
            if not texts:
                raise CribError("usage", "nothing to change is typed", "", "type what it is now beside what it was")
            became = life.amend(crib, call.number("number"), texts, call.number("since"))
        except CribError as error:
            return _page(call, crib, error.finding)
        said = "; ".join(words(one, crib.units) for one in overruled(became.before, became.after))
    return call.go(f"/cutter/{became.after.id}", news=News(f"cutter-{became.after.id}-amend", said or "Kept."))


def now(call: Call) -> Response:
    """Tell in words what became of it."""
    with call.open() as crib:
        try:
            became = life.now(crib, call.number("number"), call.text("words"), call.number("since"))
        except CribError as error:
            return _page(call, crib, error.finding)
    said = "; ".join(filter(None, (became.says, became.asks)))
    return call.go(f"/cutter/{became.after.id}", news=News(f"cutter-{became.after.id}-now", said))


def _page(call: Call, crib: Crib, failed: Finding | None = None) -> Response:
    card = looking.show(crib, call.number("number"))
    clash = failed is not None and failed.id == "changed"
    return call.page("cutter.html", 409 if clash else 400 if failed else 200, card=card,
                     cutter=card.cutter, fields=_fields(card.cutter, card.known, crib.units), drawn=row([card.cutter]),
                     rows=in_rows(card.history, card.undone), units=crib.units, failed=failed, clash=clash,
                     typed=call.typed if failed else {"words": call.text("words")})


def _fields(cutter: Cutter, known: dict[str, str], units: str) -> list[dict[str, Any]]:
    """Every attribute as it stands, with how it is known: first those that its kind has, then the rest."""
    now = cutter.as_json()
    shown = [key for key in ATTRIBUTES if key not in _ASIDE]
    rows = [{"key": key, "name": ATTRIBUTES[key].name.replace("-", " "), "help": ATTRIBUTES[key].help,
             "is_size": key in _SIZES, "known": known.get(key) or "", "choices": choices_of(key),
             "value": "" if now[key] in (None, [], "unknown") else words(value_of(key, now[key]), units)}
            for key in shown]
    return sorted(rows, key=lambda one: (not one["value"], not one["is_size"], one["key"] == "kind"))
