"""Completions for a shell, and the page for `man`: made of the commands themselves, and read by the shells."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from crib.cli.commands import COMMANDS
from crib.cli.completions import SHELLS
from crib.features import KINDS
from tests.cli.conftest import Crib

TYPED: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("crib ta", ("take-in", "tap")), ("crib make t-sl", ("t-slot",)), ("crib make slot --wi", ("--width",)),
    ("crib make --units mm sl", ("slit", "slot")), ("crib amend 12 --cond", ("--condition",)),
    ("crib amend 12 --condition sh", ("sharp",)), ("crib make slot --ends cl", ("closed",)),
    ("crib gauge --kind inter", ("internal-thread",)), ("crib friends a", ("add",)), ("crib make slot --head-w", ()),
    ("crib make t-slot --head-w", ("--head-width",)), ("crib completion fi", ("fish",)), ("crib help un", ("undo",)),
)
"""What is typed, and what comes up."""


@pytest.fixture(scope="module")
def scripts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Every script, made once."""
    from crib.cli.completions import script

    folder = tmp_path_factory.mktemp("completions")
    for shell in SHELLS:
        (folder / shell).write_text(script(shell), encoding="utf-8")
    return folder


def ran(*words: str) -> str:
    done = subprocess.run(words, capture_output=True, text=True, encoding="utf-8", check=False, timeout=60)
    assert done.returncode == 0 and not done.stderr, done.stderr
    return done.stdout


@pytest.mark.skipif(not shutil.which("bash"), reason="no bash here")
def test_bash(scripts: Path) -> None:
    tries = "\n".join(f"try {typed}" for typed, _ in TYPED)
    shown = ran("bash", "-c", f"source {scripts / 'bash'}\n"
                'try() { COMP_WORDS=("$@"); COMP_CWORD=$(( $# - 1 )); COMPREPLY=(); _crib; echo "${COMPREPLY[*]}"; }\n'
                f"{tries}\ncomplete -p crib")
    *found, last = shown.splitlines()
    assert last == "complete -F _crib crib"
    assert [tuple(sorted(line.split())) for line in found] == [wanted for _, wanted in TYPED]


@pytest.mark.skipif(not shutil.which("zsh"), reason="no zsh here")
def test_zsh(scripts: Path) -> None:
    """zsh itself leaves out what doesn't begin as it was typed."""
    tries = "\n".join(f"try {typed}" for typed, _ in TYPED)
    shown = ran("zsh", "-f", "-c", 'compadd() { shift; print -r -- "$*" }\n_files() { print }\n'
                f'try() {{ words=("$@"); CURRENT=$#; _crib; print -r -- . }}\nsource {scripts / "zsh"} >/dev/null\n'
                f"{tries}")
    found = [part.split() for part in shown.split("\n.\n")]
    for (typed, wanted), offered in zip(TYPED, found, strict=False):
        assert tuple(sorted(one for one in offered if one.startswith(typed.split()[-1]))) == wanted, typed


@pytest.mark.skipif(not shutil.which("fish"), reason="no fish here")
@pytest.mark.parametrize(("typed", "wanted"), TYPED)
def test_fish(scripts: Path, typed: str, wanted: tuple[str, ...]) -> None:
    shown = ran("fish", "--no-config", "-c", f"source {scripts / 'fish'}; complete -C '{typed}'")
    assert tuple(sorted(line.split("\t")[0] for line in shown.splitlines())) == wanted


@pytest.mark.parametrize("shell", SHELLS)
def test_every_script_knows_every_command_and_kind(scripts: Path, shell: str) -> None:
    text = (scripts / shell).read_text(encoding="utf-8")
    assert all(name in text for name in (*COMMANDS, *KINDS, "head-width", "overrule"))


def test_powershell_closes_what_it_opens(scripts: Path) -> None:
    """Where there is no PowerShell to try it: outside quotes every bracket is closed, and no word has a quote."""
    text = (scripts / "powershell").read_text(encoding="utf-8")
    bare = "".join(text.split("'")[::2])
    assert text.count("'") % 2 == 0
    assert all(bare.count(one) == bare.count(other) for one, other in ("{}", "()", "[]"))


def test_the_shell_is_asked_for_by_name(crib: Crib, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "complete -F _crib crib" in crib("completion", "bash").out
    assert crib("completion", "fish", "--json").json["shell"] == "fish"
    monkeypatch.setenv("SHELL", "/usr/bin/zsh")
    assert crib("completion").out.startswith("#compdef crib")
    assert crib("completion", "tcsh").status == 2
    assert "completion" in crib("autocomplete").err


def test_help_says_where_each_shell_keeps_it(crib: Crib) -> None:
    """The guide sends whoever asks there, and it stood in no help: without the place a script is of no use. The places
    are those of the shells' own manuals (bash-completion, zshcompsys, fish `complete`, about_Profiles), from memory."""
    told = " ".join(crib("completion", "--help").out.split())
    for place in ("~/.bash_completion", "fpath", "~/.config/fish/completions/crib.fish", "$PROFILE"):
        assert place in told, place


def test_the_page_for_man(crib: Crib, tmp_path: Path) -> None:
    """Every command is in it with its options, and `man` has nothing to say against it."""
    page = crib("help", "--man").out
    assert all(f".SS crib {name}".replace("-", "\\-") in page for name in COMMANDS)
    assert "\\-\\-head\\-width SIZE" in page and not [line for line in page.splitlines() if line.startswith("'")]
    if shutil.which("man"):
        (tmp_path / "crib.1").write_text(page, encoding="utf-8")
        shown = subprocess.run(["man", "--warnings", "-l", str(tmp_path / "crib.1")], capture_output=True, text=True,
                               encoding="utf-8", check=False, env={"PATH": "/usr/bin:/bin", "MANWIDTH": "80"})
        if shown.returncode == 0 and "minimized" not in shown.stdout:
            assert not shown.stderr and "crib make t-slot" in shown.stdout


def test_help_by_kind_has_its_sizes_first_and_nothing_of_others(crib: Crib) -> None:
    shown = crib("help", "make", "t-slot").out
    assert shown == crib("make", "t-slot", "--help").out
    assert shown.index("Sizes:") < shown.index("--head-width") < shown.index("The work:") < shown.index("--material")
    assert "--head-width" not in crib("make", "slot", "--help").out
    assert "--ends" not in crib("make", "gib-screw-holes", "--help").out and "--ends" in shown


@pytest.mark.parametrize(("said", "meant"), [
    ("delete", "now"), ("lend", "now"), ("broke", "now"), ("sharpen", "now"), ("where", "find"),
    ("prices", "price"), ("borrow", "friends"), ("cost", "price"), ("metal", "materials"), ("mike", "to-mic"),
    ("bash", "completion"), ("job", "part"),
])
def test_more_is_known_by_its_meaning(crib: Crib, said: str, meant: str) -> None:
    done = crib(said)
    assert done.status == 2 and f"did you mean crib {meant}" in done.err, done.err
