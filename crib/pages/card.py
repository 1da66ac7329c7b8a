"""A cutter and the shop as rows of words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from crib.cutters.base import Cutter
from crib.cutters.known import how_known
from crib.findings.message import Fact, InWords, Text, joined, said
from crib.light.hints import Any
from crib.pages.blocks import Blocks, Fit, Paragraph, Spacer, Table, table
from crib.pages.words import name_of, value_of
from crib.shop import Shop
from crib.units import in_words

_AT_THE_TOP = ("id", "label", "ends", "assumed", "measured", "stamped")


def card(cutter: Cutter, typed: Mapping[str, str]) -> Blocks:
    """All that is known of a cutter, a row for each field; sizes and the like with how they are known."""
    rows: list[tuple[Fact, ...]] = [
        (name_of(key), said("{value}{how}", value=value, how=_standing(cutter, key, typed)))
        for key, value in _values(cutter)]
    for place, end in enumerate(cutter.ends, start=1):
        values = (said("{name} {value}", name=name_of(key), value=value) for key, value in _values(end)
                  if key != "kind")
        rows.append((f"end {place}", joined(", ", values)))
    return Paragraph(f"{cutter.id}  {cutter.label}"), Spacer(), table(("", ""), rows, Fit.ALL)


def settings(values: Mapping[str, Any]) -> Table:
    """The shop's settings, a row for each."""
    return table(("setting", "is"), ((name_of(key), value_of(key, value)) for key, value in values.items()), Fit.ALL)


def weights(shop: Shop, figures: Mapping[str, tuple[str, str]]) -> Table:
    """The figures that the cost is reckoned with, by their fields, with what each means and where its default comes
    from: a row has its option, what it is, and its default where it differs."""
    usual = Shop()
    rows = ((f"--{key.replace('_', '-')}", value_of(key, getattr(shop, key)),
             "" if getattr(shop, key) == getattr(usual, key) else value_of(key, getattr(usual, key)), help, source)
            for key, (help, source) in figures.items())
    return table(("option", "is", "default", "what it is", "default from"), rows, Fit.ALL)


def overruled(before: Cutter, after: Cutter) -> Iterator[Text]:
    """Each measured size in the place of which another one was only stated."""
    for key in before.measured:
        if (how := how_known(after, key)) not in ("measured", None):
            yield said("{name}: {was} was measured; {now} is only {how} (if it was measured: crib amend {number} "
                       "--measured {option})", name=name_of(key), was=value_of(key, getattr(before, key)),
                       now=value_of(key, getattr(after, key)), how=how or "", number=after.id,
                       option=name_of(key).replace(" ", "-"))


def _values(cutter: Cutter) -> Iterator[tuple[str, Fact]]:
    for key, value in cutter.as_json().items():
        if key not in _AT_THE_TOP and value not in (None, [], "unknown"):
            yield key, value_of(key, value)


def _standing(cutter: Cutter, key: str, typed: Mapping[str, str]) -> Text:
    """How a value is known, and how it was typed where that isn't as inches say it."""
    how = how_known(cutter, key)
    marks = [how] if how else []
    value = value_of(key, getattr(cutter, key))
    if key in typed and typed[key] != (in_words(value.mm, "in") if isinstance(value, InWords) else value):
        marks.append(f"typed {typed[key]}")
    return f" ({', '.join(marks)})" if marks else ""

