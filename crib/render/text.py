"""Plain aligned text: wrapped paragraphs and columns."""

from __future__ import annotations

from collections.abc import Sequence


def wrap(text: str, width: int, lead: str = "", indent: str = "", at_hyphens: bool = True, whole_words: bool = False
         ) -> list[str]:
    """`textwrap.wrap`, behind a lead and further lines set in. The library is long in loading: it has only what isn't
    words with one space between them.

    >>> wrap("look at the neck root", 12, "- ", "  ")
    ['- look at', '  the neck', '  root']
    """
    words = text.rstrip(" ")
    if words and words == text.strip() and not _ODD.intersection(text):
        if len(lead) + len(words) <= width:
            return [lead + words]
        if words.replace("\xa0", "").isprintable() and "  " not in words and not (at_hyphens and "-" in words):
            lines = _of_words(words.split(" "), width, lead, indent, whole_words)
            if lines:
                return lines
    import textwrap

    return textwrap.wrap(text, width, initial_indent=lead, subsequent_indent=indent, break_on_hyphens=at_hyphens,
                         break_long_words=not whole_words)


_ODD = frozenset("\t\n\x0b\x0c\r")
"""Space that isn't one of a line's."""


def _of_words(words: Sequence[str], width: int, lead: str, indent: str, whole: bool) -> list[str]:
    """Words in lines; nothing where one is longer than its line and isn't left `whole`."""
    lines, line, room = [], lead, width - len(lead)
    for number, word in enumerate(words):
        if number and 1 + len(word) <= room:
            line, room = f"{line} {word}", room - 1 - len(word)
            continue
        if number:
            lines.append(line)
            line, room = indent, width - len(indent)
        if len(word) > room and not whole:
            return []
        line, room = line + word, room - len(word)
    return [*lines, line]


def paragraph(text: str, width: int, lead: str = "", hang: int | None = None) -> list[str]:
    """Text wrapped to a width behind a lead, further lines set in by `hang` or as far as the lead.

    >>> paragraph("look at the neck root", 20, "  Note: ")
    ['  Note: look at the', '        neck root']
    """
    indent = " " * (len(lead) if hang is None else hang)
    if hang is not None and wide(lead) > width // 2:  # a long lead is broken at its own words
        begins = lead.lstrip()
        text, lead = begins + text, lead[:len(lead) - len(begins)]
    if wide(text) != len(text):
        return _wide_paragraph(text, width, lead, indent)
    return wrap(text, width, lead, indent, at_hyphens=False) or (
        [lead.rstrip()] if lead.strip() else []
    )


def _wide_paragraph(text: str, width: int, lead: str, indent: str) -> list[str]:
    """The same for a text with signs that take two columns of a terminal, or none."""
    room = width - max(wide(lead), len(indent))
    first, *rest = wrapped(text, room)
    return [lead + first, *(indent + line for line in rest)]


def folded(said: str, lines: int) -> list[str]:
    """Words in exactly so many lines, the narrowest way, or nothing.

    >>> folded("neck clears by .013", 2)
    ['neck clears', 'by .013']
    """
    for width in range(4, len(said) + 1):
        rows = wrap(said, width, whole_words=True)
        if len(rows) == lines:
            return rows
    return []


def columns(rows: Sequence[Sequence[str]], right: frozenset[int] = frozenset(), gap: int = 2) -> list[str]:
    """Rows of text set in columns; those numbered in `right` are set to the right. Columns with nothing are left out.

    >>> columns([["no", "Z"], ["1", "-.520"]], frozenset({1}))
    ['no      Z', '1   -.520']
    """
    if not rows:
        return []
    widths = [max(wide(row[at]) for row in rows) for at in range(len(rows[0]))]
    kept = [at for at, width in enumerate(widths) if width]
    set_in = [[_set(row[at], widths[at], at in right) for at in kept] for row in rows]
    return [(" " * gap).join(cells).rstrip() for cells in set_in]


JOINER = "\u2060"
"""Keeps what stands on its two sides in one line."""

_NARROW = frozenset(map(chr, (ord(JOINER), *range(0x20, 0x7F), *range(0xA0, 0x180), *range(0x2010, 0x2028),
                              *range(0x2190, 0x2200), *range(0x2260, 0x2266), *range(0x2500, 0x25A0),
                              *range(0x25B2, 0x25C6))))
"""Letters of the west, dashes, arrows and strokes: all that the program itself says. Each takes one column, the joiner
none."""


def wide(text: str) -> int:
    """How many columns of a terminal a text takes; some signs take two, some none.

    >>> wide("no. 7"), wide("刀 7")
    (5, 4)
    """
    if text.isascii() or _NARROW.issuperset(text):
        return len(text) - text.count(JOINER)
    from rich.cells import cell_len

    return cell_len(text)


def _set(text: str, width: int, right: bool) -> str:
    room = " " * (width - wide(text))
    return room + text if right else text + room


def wrapped(text: str, width: int) -> list[str]:
    """A text at words in lines of so many columns of a terminal, a word that is longer parted.

    >>> wrapped("1/2 end mill", 7), wrapped("", 7)
    (['1/2 end', 'mill'], [''])
    """
    if wide(text) == len(text):
        return wrap(text, width, at_hyphens=False) or [""]
    lines = [""]
    for word in text.split():
        for piece in _pieces(word, width):
            if lines[-1] and wide(lines[-1]) + 1 + wide(piece) > width:
                lines.append(piece)
            else:
                lines[-1] = f"{lines[-1]} {piece}" if lines[-1] else piece
    return lines


def _pieces(word: str, width: int) -> list[str]:
    """A word in pieces that aren't wider than asked."""
    out = [""]
    for sign in word:
        if out[-1] and wide(out[-1] + sign) > width:
            out.append("")
        out[-1] += sign
    return out


_SPELT = {"±": "+/-", "∓": "-/+", "°": " deg", "×": "x", "–": "-", "—": "-", "’": "'", "”": '"',
          "→": "->", "←": "<-", "↑": "^", "↓": "v"}


def as_ascii(line: str, width: int) -> list[str]:
    """A line in plain ASCII, wrapped anew where that made it too long.

    >>> as_ascii("head ±.005", 20), as_ascii("  60° ±.1", 9)
    (['head +/-.005'], ['  60 deg', '  +/-.1'])
    >>> as_ascii("then at -.043 ← left", 40)
    ['then at -.043 <- left']
    """
    bare = spelt(line)
    indent = " " * (len(bare) - len(bare.lstrip()))
    if bare == line:
        return [line]
    return [bare] if len(bare) <= width else paragraph(bare.strip(), width, indent)


def spelt(text: str) -> str:
    """A text in plain ASCII."""
    return "".join(_SPELT.get(glyph, glyph) for glyph in text).encode("ascii", "replace").decode()


def plain(text: str) -> str:
    """A text without signs that would move the cursor or change the colour."""
    if text.isprintable():
        return text
    return "".join(sign if sign.isprintable() or sign == "\n" else repr(sign)[1:-1] for sign in text)


def one_line(text: str) -> str:
    """A text as it goes into a cell.

    >>> one_line("two\\n words")
    'two words'
    """
    return " ".join(plain(text).split())
