"""The program as the shell sees it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from crib.cli.app import run

HEAVY = ("sqlmodel", "sqlalchemy", "alembic", "rich", "rapidfuzz", "pydantic", "platformdirs")


@pytest.fixture
def stocked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A crib with a few cutters in it."""
    path = tmp_path / "crib.db"
    monkeypatch.setenv("CRIB_DB", str(path))
    file = tmp_path / "list.csv"
    file.write_text("kind,diameter,note\n" + "".join(f"end-mill,{n}/64,{'x' * 900}\n" for n in range(8, 48)))
    assert run(["take-in", "--file", str(file)]) == 0
    return path


def program(*words: str | bytes, **settings: object) -> subprocess.CompletedProcess[bytes]:
    """Run one command line, its output caught unless it is sent elsewhere."""
    settings.setdefault("capture_output", "stdout" not in settings)
    return subprocess.run([sys.executable, "-m", "crib", *words], timeout=30, **settings)  # type: ignore[call-overload, no-any-return]


def imported(words: list[str]) -> str:
    """Which of the heavy packages one command line needs."""
    code = "import sys; from crib.cli.app import run; "
    code += f"run({words!r}); sys.exit(repr([name for name in {HEAVY!r} if name in sys.modules]))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, timeout=30)
    return done.stderr.decode().strip()


@pytest.mark.parametrize(
    "words", [["--help"], ["find"], ["find", "1/2", "--json"], ["show", "1"], ["shop"], ["held-back"]]
)
def test_quick_commands_import_nothing_heavy(stocked: Path, words: list[str]) -> None:
    assert imported(words) == "[]"


def test_taking_in_one_more_imports_nothing_heavy(stocked: Path) -> None:
    assert imported(["take-in", "--kind", "drill", "--diameter", "#7"]) == "[]"


def test_statuses(stocked: Path) -> None:
    assert [program(*words).returncode for words in (["find"], ["find", "nothing-such"], ["find", "--nope"])] == [
        0,
        1,
        2,
    ]


def test_bytes_that_are_not_utf8_on_the_command_line(stocked: Path) -> None:
    done = program("find", b"\xff\xfe")
    assert done.returncode == 2 and b"Traceback" not in done.stderr and b"UTF-8" in done.stderr


def test_a_reader_that_went_away(stocked: Path) -> None:
    for words in (["find"], ["find", "--json"]):
        reading, writing = os.pipe()
        os.close(reading)
        done = program(*words, stdout=writing, stderr=subprocess.PIPE)
        os.close(writing)
        assert (done.returncode, done.stderr) == (2, b"")


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs /dev/full")
@pytest.mark.parametrize("words", [("find", "--json"), ("find",)])
def test_a_full_disk(words: tuple[str, ...], stocked: Path) -> None:
    """In words, too, where the answer was to be JSON: `[Errno 28] No space left on device`."""
    with open("/dev/full", "wb") as full:
        done = program(*words, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 2 and done.stderr == b"crib: the system says: no space left on device\n"


@pytest.mark.skipif(os.name == "nt", reason="needs a POSIX shell")
def test_nowhere_to_print(stocked: Path) -> None:
    done = subprocess.run(f'"{sys.executable}" -m crib find >&-', shell=True, capture_output=True, timeout=30)
    assert done.returncode == 2 and b"Traceback" not in done.stderr


def test_a_terminal_that_knows_ascii_only(stocked: Path) -> None:
    environment = os.environ | {"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    assert program("amend", "1", "--drawer", "Fächer ½", env=environment).returncode == 0
    done = program("show", "1", env=environment)
    assert done.returncode == 0 and done.stdout.isascii()


def test_two_first_takers_at_once_lose_nothing(tmp_path: Path) -> None:
    words = [
        sys.executable,
        "-m",
        "crib",
        "--crib",
        str(tmp_path / "crib.db"),
        "take-in",
        "--kind",
        "drill",
        "--diameter",
    ]
    both = [subprocess.Popen([*words, size], stdout=subprocess.DEVNULL) for size in ("1/4", "3/8", "1/2")]
    assert [one.wait(timeout=30) for one in both] == [0, 0, 0]
    done = program("--crib", str(tmp_path / "crib.db"), "find")
    assert all(size in done.stdout for size in (b"1/4 drill", b"3/8 drill", b"1/2 drill"))
