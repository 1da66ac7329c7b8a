"""Modules that are imported when they are asked for: a short command uses few of those that a file names."""

from __future__ import annotations

import sys

from crib.light.hints import Any


def load(name: str) -> Any:
    """The module of that name: `import_module` of the standard library, which takes longer to load than three files of
    this program."""
    __import__(name)
    return sys.modules[name]


class _Later:
    """Has what a module has."""

    _module: Any

    def __init__(self, name: str) -> None:
        self._name, self._module = name, None

    def __getattr__(self, name: str) -> Any:
        if self._module is None:
            self._module = load(self._name)
        return getattr(self._module, name)


def later(name: str) -> Any:
    """The module of that name, which is imported when something of it is first asked for. A type checker is shown the
    import itself, in an `if TYPE_CHECKING` beside it."""
    return _Later(name)
