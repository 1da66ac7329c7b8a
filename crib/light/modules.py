"""Modules that are imported when something of them is first asked for: a short command uses few of those that a file
names. A type checker is shown the import itself, in an `if TYPE_CHECKING` beside it."""

from __future__ import annotations

from importlib import import_module

from crib.light.hints import Any


class _Later:
    """Has what a module has."""

    _module: Any

    def __init__(self, name: str) -> None:
        self._name, self._module = name, None

    def __getattr__(self, name: str) -> Any:
        if self._module is None:
            self._module = import_module(self._name)
        return getattr(self._module, name)


def later(name: str) -> Any:
    """The module of that name, which is imported when something of it is first asked for."""
    return _Later(name)
