"""Habits of the house: short files, short functions, a docstring for whatever others call, nothing left lying about."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from tests.docs.console import ROOT
from tests.statements import within

CODE = sorted(path for folder in ("crib", "tests", "migrations") for path in (ROOT / folder).rglob("*.py"))
PROGRAM = [path for path in CODE if path.is_relative_to(ROOT / "crib")]
KINDS_OF_TEXT = (".py", ".md", ".toml", ".json", ".txt", ".sql", ".mako", ".csv", "")
NOT_OURS = re.compile(r"__pycache__|build|dist|\.git|\.hypothesis|\.venv.*|.*_cache|.*\.egg-info")
TEXTS = sorted(path for path in ROOT.rglob("*") if path.is_file() and path.suffix in KINDS_OF_TEXT
               and not any(NOT_OURS.fullmatch(part) for part in path.relative_to(ROOT).parts))

MOST_LINES, MOST_IN_A_FUNCTION = 500, 40
LEFT_LYING = re.compile(r"\b(?:todo|fixme|xxx|lorem ipsum)\b|<<<<<<<|>>>>>>>|"
                        r"(?<![\w.~])/(?:home|work|Users)/\w", re.IGNORECASE)
TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "crib", "migrations", "tests", "sample_crib"}

Function = ast.FunctionDef | ast.AsyncFunctionDef


def where(path: Path) -> str:
    return str(path.relative_to(ROOT))


class Facts(NamedTuple):
    """What is asked of a file of the program: how long its functions are, what others may call and nobody described,
    whether it says what it is for."""

    lengths: dict[str, int]
    bare: list[str]
    is_told: bool


@cache
def facts(path: Path) -> Facts:
    """Of a file, read once."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    found = list(functions(tree))
    bare = [one.name for one, public in found if public and not ast.get_docstring(one)]
    bare += [one.name for one in tree.body
             if isinstance(one, ast.ClassDef) and not one.name.startswith("_") and not ast.get_docstring(one)]
    return Facts({one.name: (one.end_lineno or 0) - one.lineno + 1 for one, _ in sorted(
        found, key=lambda pair: (pair[0].end_lineno or 0) - pair[0].lineno)}, bare,
        bool(ast.get_docstring(tree) or not tree.body))


def functions(tree: ast.AST) -> Iterator[tuple[Function, bool]]:
    """The functions and methods of a file, and whether others may call each."""
    def inside(node: ast.AST, public: bool) -> Iterator[tuple[Function, bool]]:
        for child in within(node):
            if isinstance(child, Function):
                yield child, public and not child.name.startswith("_") and not is_property(child)
                yield from inside(child, False)
            elif isinstance(child, ast.ClassDef):
                yield from inside(child, public and not child.name.startswith("_"))
            else:
                yield from inside(child, public)

    yield from inside(tree, True)


def is_property(function: Function) -> bool:
    """A property that says what it is by its name needs no more words."""
    return any("property" in ast.unparse(one) for one in function.decorator_list)


def test_files_are_short() -> None:
    """One test for all files, as each of these: thousands that pass take longer to be told of than to be tried."""
    assert not {where(path): length for path in CODE
                if (length := len(path.read_text(encoding="utf-8").splitlines())) > MOST_LINES}


def test_functions_are_short() -> None:
    long = {f"{where(path)}: {name}": length for path in PROGRAM for name, length in facts(path).lengths.items()
            if length > MOST_IN_A_FUNCTION}
    assert not long, f"more than {MOST_IN_A_FUNCTION} lines"


def test_what_others_call_has_a_docstring() -> None:
    assert not {where(path): facts(path).bare for path in PROGRAM if facts(path).bare}
    assert not [where(path) for path in PROGRAM if not facts(path).is_told]


def test_nothing_is_left_lying_about() -> None:
    """Notes to oneself, marks of a merge, paths of somebody's machine."""
    found = {where(path): LEFT_LYING.findall(path.read_text(encoding="utf-8"))
             for path in TEXTS if path != Path(__file__)}
    assert len(found) > 1 and not {path: lying for path, lying in found.items() if lying}


def test_the_top_level_stays_as_it_is() -> None:
    kept = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert kept >= TOP
    assert {name for name in kept - TOP if not name.endswith((".egg-info", ".db"))} <= {"build", "dist"}
