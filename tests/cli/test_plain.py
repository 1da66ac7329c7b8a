"""Plain command lines are read as the library reads them, or left to it; and they don't load it."""

from __future__ import annotations

import os
import subprocess
import sys
from functools import cache
from pathlib import Path
from types import FunctionType
from typing import Any

import pytest
import typer
from hypothesis import given
from hypothesis import strategies as st

from crib.cli import library, plain
from crib.cli.commands import COMMANDS, target
from crib.cli.declared import Command, Group, Slot
from crib.cli.first_page import first_page
from crib.store import open_crib

TARGETS = {name: target(name) for name in COMMANDS}
GROUPS = {name: does for name, does in TARGETS.items() if isinstance(does, Group)}
NAMES = [
    *((name,) for name, does in TARGETS.items() if isinstance(does, FunctionType | Command)),
    *((name, kind) for name in GROUPS for kind in ("t-slot", "dovetail-slide", "hole", "tapped-hole")),
]
VALUES = ("1/2", "3", "007", "x", "two words", "", "-5", "-", "--", "-h", "no", "yes", "1_0", " 1", "9" * 20, "\u0663",
          "a=b", "5/8+.002-0")


def _parts(name: tuple[str, ...]) -> tuple[FunctionType, tuple[Slot, ...] | None]:
    does = GROUPS[name[0]].of(name[1]) if len(name) > 1 else target(name[0])
    return (does.does, does.slots) if isinstance(does, Command) else (does, None)


@cache
def _library(name: tuple[str, ...]) -> Any:
    """The library's command."""
    return library._command(GROUPS[name[0]].of(name[1])) if len(name) > 1 else library.loaded(name[0])


def _as_the_library(name: tuple[str, ...], words: list[str]) -> dict[str, Any] | None:
    """What the library gives the command; None where it doesn't understand, or shows help."""
    try:
        return dict(_library(name).make_context(name[-1], list(words)).params)
    except (typer.TyperException, typer.Exit):
        return None


def _in_full(name: tuple[str, ...], words: list[str]) -> dict[str, Any] | None:
    """What a plain reading gives it, with what is usual, in the library's shape."""
    does, slots = _parts(name)
    given = plain.arguments(does, words, slots)
    if given is None:
        return None
    code = does.__code__
    names = code.co_varnames[:code.co_argcount]
    usual = dict(zip(names[::-1], (does.__defaults__ or ())[::-1], strict=False)) | (does.__kwdefaults__ or {})
    texts = given.pop("texts", {})
    return usual | given | {f"of_{one.key}": texts.get(one.key) for one in slots or ()}


@st.composite
def lines(draw: st.DrawFn) -> tuple[tuple[str, ...], list[str]]:
    """A command with words that may belong to it."""
    name = draw(st.sampled_from(NAMES))
    options = [option for one in _library(name).params for option in (*one.opts, *one.secondary_opts)
               if option.startswith("-")]
    value = st.sampled_from(VALUES)
    option = st.sampled_from([*options, "--nope", "--help"])
    word = st.one_of(value.map(lambda one: [one]), option.map(lambda one: [one]), st.tuples(option, value).map(list),
                     st.tuples(option, value).map(lambda both: ["=".join(both)]))
    return name, [part for parts in draw(st.lists(word, max_size=4)) for part in parts]


@given(lines())
def test_what_is_read_plainly_is_what_the_library_reads(line: tuple[tuple[str, ...], list[str]]) -> None:
    name, words = line
    ours = _in_full(name, words)
    if ours is not None:
        theirs = _as_the_library(name, words)
        assert theirs is not None, "the library finds fault with it"
        in_lists = {key: list(one) or None if isinstance(one, tuple) else one for key, one in theirs.items()}
        assert in_lists == ours


@pytest.mark.parametrize("words", [
    "find", "find keyseat about 5/8", "find 1/4-20 --all", "show 27", "tap 1/4-20", "tap --check-all --material brass",
    "tap 10-32 --depth 1/2 --through", "make t-slot --bolt 3/8 --ends open --relax", "make slot --width=1/2 --depth 1",
    "bench", "bench --port 8738", "worth step --width 1 --depth 1/4 --price 48+9 --accept", "wish-list --budget 60",
    "asked", "asked 3", "history", "take-in", "take-in --file list.csv --again", "take-in --kind drill --diameter=1/4",
    "take-in 1/2 end mill", "amend 3 --neck .250", "shop", "shop --currency EUR", "held-back", "held-back 3 --drop",
    "export --to list.csv",
])
def test_usual_lines_are_read_plainly(words: str) -> None:
    assert plain.read(words.split()) is not None


@pytest.mark.parametrize("words", ["find --help", "nope", "make", "make nope", "make slot --help", "tap 1 -5",
                                   "show", "show x", "take-in --reground", "take-in --map a=b", "shop --dro yes",
                                   "amend 3 --centre-cutting no", "make slot --width"])
def test_what_is_not_plain_is_left_to_the_library(words: str) -> None:
    assert plain.read(words.split()) is None


@pytest.mark.parametrize("columns", [20, 60, 72, 80, 200])
def test_the_first_page_is_as_wide_as_the_librarys_pages(columns: int) -> None:
    """Wide as the library has them: the terminal less two, from 50 to 78."""
    widest = max(map(len, first_page(columns).splitlines()))
    assert widest <= max(50, min(78, columns - 2))


@pytest.mark.parametrize("words", [
    ["--help"], ["find"], ["find", "drill", "1/4"], ["show", "1"], ["tap", "10-32"], ["to-mic"],
    ["make", "slot", "--width", "1/2", "--depth", "1/4"], ["worth", "slot", "--width", "1/2", "--depth", "1/4"],
])
def test_plain_commands_load_no_library(words: list[str], tmp_path: Path) -> None:
    """It takes longer to load than most answers."""
    place = str(tmp_path / "crib.db")
    open_crib(place, create=True).close()
    assert _loaded(words, place, {"typer", "inspect", "dataclasses", "argparse"}) == set()


SELDOM = {"typing", "pathlib", "urllib.parse", "fractions", "decimal", "textwrap", "threading", "signal",
          "unicodedata", "sqlite3.dbapi2", "crib.safety.referral.topics", "crib.units.limits", "crib.rules.rounds",
          "crib.features.down", "crib.cutters.annular_cutter", "crib.machining.indexing",
          "crib.planning.bounds.what_can_go"}
"""What a usual cut along an edge has no need of."""


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Where the sample crib is."""
    place = str(tmp_path_factory.mktemp("sample") / "crib.db")
    subprocess.run([sys.executable, "-m", "crib", "demo", "--into", place], check=True, capture_output=True)
    return place


@pytest.mark.parametrize("words", [
    ["find"], ["show", "1"], ["make", "slot", "--width", "1/2+.002-0", "--depth", "1/4"],
    ["make", "t-slot", "--throat", "5/8", "--depth", ".52", "--head-width", ".975", "--head-height", ".24"],
    ["make", "dovetail", "--angle", "60", "--depth", "3/8", "--width", "2"],
])
def test_what_is_seldom_needed_is_loaded_when_it_is(words: list[str], sample: str) -> None:
    """On cutters that are there: a T-slot looks round for one that could be bought, too."""
    assert _loaded(words, sample, SELDOM) == set()


def test_help_needs_no_patterns(sample: str) -> None:
    assert _loaded(["--help"], sample, {"re", "enum", "json"}) == set()


@pytest.mark.parametrize("words", [
    ["make", "pocket", "--width", "1-1/2", "--length", "2-1/2", "--depth", "1/2", "--corner-radius", "1/4"],
    ["make", "inside-fillet", "--radius", "1/8", "--width", "3/4", "--depth", "1/4"],
])
def test_no_disc_is_thought_of_where_no_wall_leans_over(words: list[str], sample: str) -> None:
    assert _loaded(words, sample, {"crib.planning.bounds.discs_first", "crib.handbook.dovetails"}) == set()


def _loaded(words: list[str], place: str, which: set[str]) -> set[str]:
    """Which of these modules a command loads."""
    code = (f"import sys; from crib.cli.app import run; run({words!r}); "
            f"sys.exit(repr(sorted({which!r} & {{*sys.modules}})))")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False,
                          env=os.environ | {"CRIB_DB": place})
    return set(eval(done.stderr.splitlines()[-1]))
