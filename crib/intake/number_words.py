"""The words of which numbers are made, as a shop says them or a program that takes dictation writes them."""

from __future__ import annotations

ONES = {word: n for n, word in enumerate((
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"))} | {"nought": 0, "oh": 0}
TENS = {word: n * 10 for n, word in enumerate(
    ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"), start=2)}
PARTS = {"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8, "eights": 8, "ate": 8,
         "sixteenth": 16, "sixteenths": 16, "sixteens": 16, "thirty-second": 32, "thirty-seconds": 32,
         "sixty-fourth": 64, "sixty-fourths": 64}
"""What a fraction is of, by the word behind its count."""

WORDS = frozenset(part for word in (*ONES, *TENS, *PARTS, "hundred", "point") for part in word.split("-"))
"""Every one of them: a line with none of these says no number in words."""
