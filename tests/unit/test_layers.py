"""Imports run downwards only, as the table of DEVELOPERS.md says; the kernel knows nothing of the trade; the command
line and the bench page hold no SQL and reckon with no lengths."""

from __future__ import annotations

import ast
import re
import tokenize
import tomllib
from collections.abc import Callable, Iterator, Set
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.statements import statements

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "crib"
FILES = sorted(PACKAGE.rglob("*.py"))
DOORS = ("crib/__init__.py", "crib/__main__.py")
"""Files that belong to no part: the package and `python -m crib`."""

EVERYWHERE = ("light",)
"""What stands in for parts of the standard library."""

TRADE = set(re.findall(r"[a-z]+", """
arbor bolt bore boring carbide chip chuck clamp collet counterbore cutter dial dovetail drill endmill feed flute
handwheel holder inch inches iron keyseat keyway knee lathe machinist mill milling neck ream rpm saw screw shank shop
slot speed spindle steel tap thou throat tooth teeth tool vise vice woodruff workpiece"""))
SQL = re.compile(r"\b(SELECT\s.+\sFROM|INSERT\s+INTO|UPDATE\s.+\sSET|DELETE\s+FROM|CREATE\s+TABLE|PRAGMA)\b")
DATABASES = ("sqlite3", "sqlalchemy", "sqlmodel", "alembic")
LENGTH = re.compile(r"(^|_)(mm|nm|inch|inches)$")


def table() -> dict[str, set[str]]:
    """What each part may import, in the table's order."""
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `([\w.]+)` \| [^|]+ \| ([^|]+) \|$", page, re.MULTILINE)
    allowed: dict[str, set[str]] = {}
    for part, may in rows:
        words = set(re.findall(r"[\w.]+", may)) - {"–"}
        allowed[part] = set(allowed) if words == {"all", "above"} else words
    return allowed


ALLOWED = table()


def part_of(module: str) -> str:
    """The part that a module belongs to: the longest name in the table that it begins with."""
    inside = module.removeprefix("crib.")
    names = [name for name in ALLOWED if inside == name or inside.startswith(f"{name}.")]
    return max(names, key=len, default="")


class Imports(NamedTuple):
    """Every module that a file imports, wherever in it; and those that it imports for more than type checkers."""

    told: tuple[str, ...]
    run: frozenset[str]


@cache
def imports_of(path: Path) -> Imports:
    """Of a file, read once."""
    text = path.read_text(encoding="utf-8")
    tree, puts_off = ast.parse(text), "later" in text

    def found(gone_into: Callable[[ast.AST], bool]) -> Iterator[str]:
        return (module for node in statements(tree, gone_into) for module in _imports_of(node, puts_off))

    return Imports(tuple(found(lambda node: True)), frozenset(found(_is_run)))


def imports(path: Path) -> tuple[str, ...]:
    """Every module that a file imports, wherever in it."""
    return imports_of(path).told


LATER = re.compile(r"crib(?:[.]\w+)+")
"""A module that `crib.light.modules.later` is told to import when it is wanted."""


def _imports_of(node: ast.AST, puts_off: bool) -> Iterator[str]:
    """Of one statement of a file. `puts_off`: whether `later` stands anywhere in it."""
    if puts_off and isinstance(node, ast.Assign) and "later" in ast.unparse(node.value):
        texts = [inner.value for inner in ast.walk(node.value) if isinstance(inner, ast.Constant)]
        yield from (text for text in texts if isinstance(text, str) and LATER.fullmatch(text))
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
    elif isinstance(node, ast.ImportFrom):
        assert node.level == 0, f"{node.module} is imported relatively"
        for alias in node.names:
            whole = f"{node.module}.{alias.name}"
            yield whole if node.module == "crib" or _is_module(whole) else str(node.module)


@cache
def _is_module(whole: str) -> bool:
    place = ROOT / whole.replace(".", "/")
    return place.with_suffix(".py").exists() or place.is_dir()


def name(path: Path) -> str:
    """The module of a file."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


def _is_run(node: ast.AST) -> bool:
    """Whether it doesn't stand there for type checkers alone."""
    return not (isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test))


def test_imports_run_in_no_ring() -> None:
    """Within a part too, and wherever in a file they stand: a ring that is hidden in a function is one all the same."""
    met: dict[str, Set[str]] = {name(path): imports_of(path).run for path in FILES}
    while ends := {module for module, others in met.items() if not others & met.keys() - {module}}:
        met = {module: others for module, others in met.items() if module not in ends}
    assert not met, f"among these: {sorted(met)}"


@pytest.mark.parametrize("path", [path for path in FILES if PACKAGE / "pages" in path.parents],
                         ids=lambda path: path.name)
def test_pages_choose_neither_units_nor_width(path: Path) -> None:
    """So that one page can be read in inches, in millimetres, on a terminal and on paper."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    asked = {argument.arg for node in ast.walk(tree) if isinstance(node, ast.arguments)
             for argument in (*node.posonlyargs, *node.args, *node.kwonlyargs)}
    assert not asked & {"units", "width"}
    assert not {"crib.units.show", "crib.units.show_apart"} & set(imports(path))


def test_the_table_runs_downwards() -> None:
    seen: set[str] = set()
    for part, may in ALLOWED.items():
        assert may <= seen, f"{part} may import what stands below it: {may - seen}"
        seen.add(part)
    assert len(seen) > 10


def test_imports() -> None:
    """One test for all files: a thousand that pass take longer to be told of than to be tried."""
    places = {path: part_of(name(path)) for path in FILES if str(path.relative_to(ROOT)) not in DOORS}
    assert not [str(path) for path, part in places.items() if not part], "of no part of the table in DEVELOPERS.md"
    wrong = [f"{path.relative_to(ROOT)}: {part} may not import {module}" for path, part in places.items()
             for module in imports(path) if module.split(".")[0] == "crib" and not may_import(part, module)]
    assert not wrong


def may_import(part: str, module: str) -> bool:
    """Whether what stands in a part may import a module of ours: its own part's, what lies under all, what the table
    names."""
    other = part_of(module)
    return other in (part, *EVERYWHERE) or bool({other, other.split(".")[0]} & ALLOWED[part])


def test_types_of_whatever_is_imported_are_checked() -> None:
    """The type checker is told to pass nothing over that a file of the program imports."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["mypy"]["overrides"]
    over, followed = ([module for one in settings if one["follow_imports"] == how for module in one["module"]]
                      for how in ("skip", "normal"))
    begins = tuple(module.removesuffix("*") for module in over)
    assert begins and len(over) + len(followed) == sum(len(one["module"]) for one in settings)
    assert not [(str(path), module) for path in FILES for module in imports(path)
                if f"{module}.".startswith(begins) and module not in followed]


def test_the_kernel_imports_nothing_but_itself() -> None:
    foreign = {module for path in (PACKAGE / "geometry").glob("*.py") for module in imports(path)
               if not module.startswith(("crib.geometry", "crib.light"))}
    assert {module.split(".")[0] for module in foreign} <= {
        "__future__", "bisect", "collections", "contextlib", "enum", "functools", "heapq", "itertools",
        "math", "operator", "typing"}


@pytest.mark.parametrize("path", sorted((PACKAGE / "geometry").glob("*.py")), ids=lambda path: path.name)
def test_the_kernel_has_no_word_of_the_trade(path: Path) -> None:
    """In names, strings and comments. What stands in quotation marks is the title of a paper."""
    with path.open("rb") as file:
        tokens = [token for token in tokenize.tokenize(file.readline)
                  if token.type in (tokenize.NAME, tokenize.STRING, tokenize.COMMENT)]
    for token in tokens:
        text = re.sub(r'(?<!")"[^"]+"(?!")', "", token.string) if token.type == tokenize.STRING else token.string
        words = re.findall(r"[a-z]+", re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text).lower())
        found = {word for word in words if {word, word.removesuffix("s")} & TRADE}
        assert not found, f"line {token.start[0]}"


@pytest.mark.parametrize("path", [path for part in ("cli", "web") for path in sorted((PACKAGE / part).glob("*.py"))],
                         ids=lambda path: f"{path.parent.name}/{path.name}")
def test_the_command_line_and_the_bench_page_have_no_sql_and_reckons_no_lengths(path: Path) -> None:
    assert not {module.split(".")[0] for module in imports(path)} & set(DATABASES)
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            assert not SQL.search(node.value), f"SQL in line {node.lineno}"
        if isinstance(node, ast.BinOp | ast.AugAssign):
            for inner in ast.walk(node):
                word = getattr(inner, "attr", None) or getattr(inner, "id", None) or ""
                assert not LENGTH.search(str(word)), f"a length is reckoned with in line {node.lineno}"
                assert getattr(inner, "value", None) not in (25.4, 1e6, 1e-6), f"a unit in line {node.lineno}"


def test_only_the_store_knows_of_databases() -> None:
    others = [path for path in FILES if "store" not in path.parts and path.name != "__main__.py"]
    assert len(others) > 100
    assert not [str(path) for path in others if {module.split(".")[0] for module in imports(path)} & set(DATABASES)]
