"""Templates: every text is escaped, and signs that would move what stands around them are spelt out."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from crib.render.text import plain

if TYPE_CHECKING:
    from jinja2 import Environment, Template

    from crib.app.changes import Change

FOLDER = Path(__file__).parent / "pages"


@cache
def _environment() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    made = Environment(loader=FileSystemLoader(FOLDER), autoescape=True, undefined=StrictUndefined,
                       finalize=_shown, trim_blocks=True, lstrip_blocks=True, auto_reload=False)
    made.filters |= {"as_typed": _as_typed, "whole": _whole, "deed": _deed, "in_words": _in_words, "many": _many,
                     "kind_name": kind_name, "capitalised": lambda text: text[:1].upper() + text[1:]}
    return made


def html(template: str, /, **values: Any) -> str:
    """A page by the name of its template."""
    return load(template).render(values)


def load(template: str) -> Template:
    """A template by its name, read once."""
    return _environment().get_template(template)


def _shown(value: Any) -> Any:
    """A text without signs that would move the cursor; markup is as it is."""
    if value is None:
        return ""
    return plain(value) if type(value) is str else value


def _as_typed(text: str) -> Any:
    """A text in a field, sign for sign: it is sent again as it was typed."""
    from markupsafe import escape

    return escape(text)


def _whole(markup: str) -> Any:
    """What `crib.render` has made: it is escaped already."""
    from markupsafe import Markup

    return Markup(markup)


def _many(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


def kind_name(name: str) -> str:
    """A kind of feature as it stands on a page: by its name alone, so that a list of them loads none.

    >>> kind_name("t-slot"), kind_name("gib-screw-holes")
    ('T-slot', 'gib screw holes')
    """
    first, _, rest = name.partition("-")
    return f"{first.upper()}-{rest}" if len(first) == 1 else name.replace("-", " ")


def _deed(change: Change) -> str:
    from crib.pages.history import deed

    return deed(change.as_json(), {})


def _in_words(change: Change, units: str) -> str:
    from crib.pages.history import change_in_words
    from crib.render.words import words

    return words(change_in_words(change.as_json()), units)
