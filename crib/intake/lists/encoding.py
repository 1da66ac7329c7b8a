"""From the bytes of a list to its text. Old lists aren't always UTF-8: what can be told is read, the rest stays
recognisable, so that its line is held back and not read with sizes that nobody wrote."""

from __future__ import annotations

import re
from collections.abc import Iterable

_OLD = "cp1252"
"""What lists were saved in before UTF-8, Latin-1 among it."""

_TOLD = "¼½¾°×Øø±µ²³"
"""Signs beside a number that mean what they say. In other old encodings a half or a quarter stands where this one has
some other sign, so that any other sign beside a digit can't be trusted."""

_BESIDE_A_DIGIT = re.compile(rf"[0-9][^\x00-\x7f{_TOLD}]|[^\x00-\x7f{_TOLD}][0-9]|^\s*[^\x00-\x7f\w{_TOLD}]")

NOT_TEXT = "it isn't UTF-8 text, and a sign in it can't be told"
SAVE_AS = "type it again, or save the list as UTF-8"


def decoded(line: bytes) -> str:
    """One line. Bytes that can't be told stay as lone surrogates, which `is_told` finds.

    >>> decoded("½ drill".encode()), decoded("Fächer 2".encode("latin-1")), decoded("½ drill".encode("latin-1"))
    ('½ drill', 'Fächer 2', '½ drill')
    >>> is_told(decoded("1½ drill".encode("cp850")))
    False
    """
    try:
        return line.decode("utf-8")
    except UnicodeDecodeError:
        pass
    try:
        old = line.decode(_OLD)
    except UnicodeDecodeError:
        old = ""
    if not old or _BESIDE_A_DIGIT.search(old):
        return line.decode("utf-8", "surrogateescape")
    return old


def is_told(text: str) -> bool:
    """Whether every sign of a text could be told."""
    return text.isascii() or not any("\udc80" <= sign <= "\udcff" for sign in text)


def is_utf8(content: bytes) -> bool:
    """Whether bytes are UTF-8."""
    try:
        content.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


def read_as_old(names: Iterable[str]) -> str:
    """What to say of lists that weren't UTF-8."""
    return (f"{', '.join(names)} isn't UTF-8; read as Windows-1252 (Latin-1): look over the words that aren't plain "
            "letters")
