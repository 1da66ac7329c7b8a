"""A part's text written from the part alone, beside the reader: the program itself keeps what its owner wrote."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from crib.parts.blocks import HEADER, spelt
from crib.parts.frame import across_its_run
from crib.parts.lengths import exact
from crib.parts.part import Face, Part, Placed, Runs, Stock

_NEAR = "front left top"


def part_to_toml(part: Part) -> str:
    """A part as text, which reads back as the same part."""
    lines = [*_head_lines(part)]
    for one in part.features:
        lines += ["", HEADER, *feature_lines(one, part)]
    return "\n".join(lines) + "\n"


def _head_lines(part: Part) -> Iterator[str]:
    yield f"name = {spelt(part.name)}"
    yield f"stock = {spelt(stock_text(part.stock, part.units))}"
    yield f"units = {spelt(part.units)}"
    for key in ("material", "fits", "use"):
        if getattr(part, key):
            yield f"{key} = {spelt(getattr(part, key))}"
    if part.hours:
        yield f"hours = {part.hours!r}"
    if part.datum != "front left":
        yield f"datum = {spelt(part.datum)}"
    if part.notes:
        yield f"notes = {spelt(part.notes)}"


def feature_lines(one: Placed, part: Part) -> Iterator[str]:
    """The lines of a feature's block, below its heading."""
    yield f"name = {spelt(one.name)}"
    yield f"kind = {spelt(one.kind)}"
    if one.typed_in != part.units:
        yield f"units = {spelt(one.typed_in)}"
    for key, text in one.texts.items():
        if key != "count" or not one.more:
            yield f"{key.replace('_', '-')} = {spelt(text)}"
    for key, value in place_texts(one, one.typed_in).items():
        yield f"{key} = {spelt(value)}"
    if part.datum != "front left":
        yield f"from = {spelt(_NEAR)}"
    if one.after:
        yield f"after = {spelt(one.after)}"


def place_texts(one: Placed, units: str) -> dict[str, Any]:
    """What says where a feature lies, counted from the front left top corner; what goes without saying left out."""
    place = one.place
    said: dict[str, Any] = {}
    if place.face is not Face.TOP:
        said["face"] = str(place.face)
    if place.runs is not Runs.ALONG:
        said["runs"] = str(place.runs)
    at = [f"{exact(each.along, units)}, {exact(each.across, units)}" for each in one.places]
    said["at"] = at if len(at) > 1 else at[0]
    if place.level:
        said["level"] = exact(place.level, units)
    if place.turned is not None:
        near, far = across_its_run(place.face, place.runs)
        said["toward"] = near if place.turned else far
    return said


def stock_text(stock: Stock, units: str) -> str:
    """Stock as a part's text has it.

    >>> stock_text(Stock(101.6, 50.8, 25.4), "in"), stock_text(Stock(150, 40, 40, 40), "mm")
    ('4 x 2 x 1', '40 round x 150')
    """
    if stock.diameter is not None:
        return f"{exact(stock.diameter, units)} round x {exact(stock.length, units)}"
    return " x ".join(exact(size, units) for size in (stock.length, stock.width, stock.height))
