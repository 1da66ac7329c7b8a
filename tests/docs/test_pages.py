"""What the pages show is what the program prints, and what they name is there."""

from __future__ import annotations

import difflib
import re
import subprocess
from pathlib import Path

import pytest

from crib.cli.commands import COMMANDS
from crib.features import KINDS as FEATURES
from crib.findings.verdicts import WORDS
from tests.docs import console

ROOT = console.ROOT
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
BOTH = README + DEVELOPERS
SHELL = re.findall(r"^```sh\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
RENEW = "python -m tests.docs.console writes the blocks anew: look at what changed before keeping it"


@pytest.mark.parametrize("name", console.PAGES)
def test_the_blocks_are_what_is_printed(name: str, tmp_path: Path) -> None:
    for typed, shown in console.run(ROOT / name, tmp_path):
        if not console.fits(typed.shown, shown):
            lines = difflib.unified_diff(typed.shown, shown, name, "printed", lineterm="")
            pytest.fail("\n".join([f"$ {typed.line}", *lines, RENEW]), pytrace=False)


def test_the_readme_shows_every_way_to_end() -> None:
    assert {line for block in console.blocks(README) for one in console.typed(block) if one.line == "echo $?"
            for line in one.shown} == {"1", "2"}


def test_the_job_stands_first() -> None:
    first = README.split("\n\n")[1]
    for word in ("already own", "T-slot", "one-off", "repair shops", "makerspaces", "teachers", "neck clears", "passes",
                 "readout", "knee", "as drawn"):
        assert word in " ".join(first.split())


def test_exactly_two_commands_do_everything() -> None:
    assert len(SHELL) == 2
    assert all(block.startswith("python3 -m venv ") and block.count("\n") == 1 for block in SHELL)
    assert "crib demo" in SHELL[0] and "[test]" in SHELL[1] and "pytest" in SHELL[1]


def test_the_readmes_test_command_is_what_is_run() -> None:
    run = ROOT / ".ci" / "run"
    assert run.stat().st_mode & 0o111
    shown = subprocess.run([str(run), "--show"], capture_output=True, text=True, check=True).stdout
    assert shown == SHELL[1]


@pytest.mark.parametrize("page", console.PAGES)
def test_links_lead_somewhere(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    for link in re.findall(r"\]\(([^)#]+)", text):
        assert "://" in link or (ROOT / link).exists(), link


def test_paths_that_are_named_are_there() -> None:
    """Paths in `...` that begin in a folder of ours; `NAME` and `*` stand for one that is meant to be made."""
    for path in re.findall(r"`((?:crib|tests|migrations|sample_crib|\.ci)/[^`\s]*)`", DEVELOPERS):
        if not re.search(r"NAME|\*|…", path):
            assert (ROOT / path.split("::")[0]).exists(), path


@pytest.mark.parametrize("name", [*COMMANDS, *FEATURES])
def test_every_command_and_feature_is_listed(name: str) -> None:
    """`python -m tests.docs.console` puts a new one in."""
    assert re.search(rf"^  {name} +\S", README, re.MULTILINE)


def test_every_verdict_is_explained() -> None:
    for word, says in WORDS.items():
        assert f"| {says} | `{word}` |" in README


def test_dots_stand_for_any_lines() -> None:
    assert console.fits(["a", "...", "d"], ["a", "b", "c", "d"])
    assert console.fits(["a", "...", "d"], ["a", "d"])
    assert not console.fits(["a", "...", "d"], ["a", "b", "d", "e"])
    assert not console.fits(["a"], ["a", "b"])


def test_blocks_are_renewed_piece_by_piece() -> None:
    shown, is_so = ["head: 1", "...", "row 7 x", "..."], ["head: 2", "other", "row 8 x", "end"]
    assert console.renewed(shown, is_so) == ["head: 2", "...", "row 8 x", "..."]
    assert console.renewed(["a"], is_so) == is_so
    assert console.renewed(["head", "...", "gone", "..."], ["head"]) == ["head", "..."]
    assert console.renewed(["...", "end"], is_so) == ["...", "end"]
