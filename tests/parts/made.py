"""Parts for tests, made from their text."""

from __future__ import annotations

from crib.app.part.on_file import read_text
from crib.parts.part import Part
from crib.planning.parts.asked import AskedPart, asked_of
from crib.shop import Shop

HEAD = 'name = "p"\nstock = "100 x 60 x 40 mm"\nunits = "mm"\nmaterial = "1018"\n'


def part(*features: str, head: str = HEAD) -> tuple[Part, AskedPart]:
    """A part of features, each the lines of its block; all of it must be read."""
    text = head + "".join(f"\n[[feature]]\n{lines}\n" for lines in features)
    read = read_text(text, Shop(units="mm"), "p")
    assert not read.unread, read.unread
    return read.whole, asked_of(read.whole, Shop(units="mm"))


def hole(name: str, at: str, diameter: float = 6, depth: float = 10, more: str = "") -> str:
    return f'name = "{name}"\nkind = "hole"\ndiameter = "{diameter}"\ndepth = "{depth}"\nat = "{at}"\n{more}'


def slot(name: str, at: str, width: float = 10, depth: float = 8, more: str = "") -> str:
    return f'name = "{name}"\nkind = "slot"\nwidth = "{width}"\ndepth = "{depth}"\nat = "{at}"\n{more}'
