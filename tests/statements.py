"""The statements of a file of code, wherever they stand: a walk through all that they are made of takes ten times as
long."""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator

_HOLD = ("body", "handlers", "orelse", "finalbody", "cases")
"""Where statements stand in another, and what holds them there."""


def statements(node: ast.AST, gone_into: Callable[[ast.AST], bool] = lambda node: True) -> Iterator[ast.AST]:
    """All below a node that are gone into, each before those in it; clauses of `try` and `match` as they are."""
    for inner in within(node):
        if gone_into(inner):
            yield inner
            yield from statements(inner, gone_into)


def within(node: ast.AST) -> Iterator[ast.AST]:
    """The statements and clauses that stand in one, not in another of them."""
    for place in _HOLD:
        yield from getattr(node, place, ())
