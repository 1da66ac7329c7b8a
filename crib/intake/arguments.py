"""Words on a command line: one text in several words, or several texts."""

from __future__ import annotations

from collections.abc import Sequence

from crib.intake.shorthand.line import kind_of_line


def texts_of(arguments: Sequence[str]) -> list[str]:
    """The texts that arguments make: each its own where several are whole texts that name a kind, else all as one.

    >>> texts_of(["1/2", "end", "mill"]), texts_of(["quarter twenty plug tap", "#7 drill"])
    (['1/2 end mill'], ['quarter twenty plug tap', '#7 drill'])
    >>> texts_of(["quarter", "twenty", "tap", "drill"])
    ['quarter twenty tap drill']
    """
    named = [argument for argument in arguments if kind_of_line(argument)]
    whole = [argument for argument in arguments if len(argument.split()) > 1]
    several = sum(argument in whole for argument in named) > 1
    return list(arguments) if several and set(arguments) <= {*named, *whole} else [" ".join(arguments)]
