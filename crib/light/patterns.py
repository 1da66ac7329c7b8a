"""Regular expressions that are compiled when they are first looked for: a command has the patterns of every file that
it loads, and looks for few of them."""

from __future__ import annotations

import re

from crib.light.hints import TYPE_CHECKING, Any


class _Later:
    """Has what a compiled pattern has, each from when it is first asked for."""

    def __init__(self, text: str, flags: int = 0) -> None:
        self._text, self._flags = text, flags

    def __getattr__(self, name: str) -> Any:
        found = getattr(re.compile(self._text, self._flags), name)
        setattr(self, name, found)
        return found


if TYPE_CHECKING:
    from re import compile as pattern
else:
    pattern = _Later

__all__ = ["pattern"]
