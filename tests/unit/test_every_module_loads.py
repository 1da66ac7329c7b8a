"""Each module of the program loads, also one that is only loaded where it is needed."""

from __future__ import annotations

from importlib import import_module

from tests.docs.console import ROOT


def names() -> set[str]:
    """The names of all modules of the program."""
    files = [path for path in sorted((ROOT / "crib").rglob("*.py")) if path.name != "__main__.py"]
    return {".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__") for path in files}


def test_every_module_loads() -> None:
    assert len(names()) > 500
    for name in names():
        assert import_module(name).__name__ == name
