"""The pieces of a line: figures as they are written, words, signs; each knows where it stands."""

from __future__ import annotations

import re

from crib.light.tuples import NamedTuple

FIGURE = r"\d+-\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+"
"""A size's figure, as patterns look for one."""

_TOKEN = re.compile(r"#?\d+-\d+/\d+|#?\d+/\d+|\d+[.,]\d+|(?<![\d.])\.\d+|#?\d+|[^\W\d_]+|\S")


class Token(NamedTuple):
    """A piece: its text in small letters, where it begins and ends."""

    text: str
    start: int
    end: int

    @property
    def is_number(self) -> bool:
        """Whether it is a figure."""
        return self.text[-1].isdigit()

    @property
    def is_word(self) -> bool:
        """Whether it is made of letters."""
        return self.text[0].isalpha()


def tokens(low: str) -> list[Token]:
    """The pieces of a line in small letters.

    >>> [one.text for one in tokens("3/8x1/4 slot,.500/.502 wide 12h7")]
    ['3/8', 'x', '1/4', 'slot', ',', '.500', '/', '.502', 'wide', '12', 'h', '7']
    """
    return [Token(found[0], *found.span()) for found in _TOKEN.finditer(low)]
