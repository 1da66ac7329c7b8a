"""`typer`, imported when something of it is first asked for: a command line that needs no library doesn't wait for it;
and `Path` as an option's type.

Options stand in annotations, which are text until somebody reads them; to a type checker this is the library itself.
"""

from __future__ import annotations

from crib.light.hints import TYPE_CHECKING, Any
from crib.light.modules import load


class _Later:
    def __getattr__(self, name: str) -> Any:
        return getattr(load("typer"), name)


class _Path:
    def __or__(self, other: object) -> Any:
        return load("pathlib").Path | other


if TYPE_CHECKING:
    from pathlib import Path as Path

    import typer as typer
else:
    typer, Path = _Later(), _Path()
