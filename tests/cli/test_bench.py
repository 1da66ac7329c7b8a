"""`crib bench` from the typing to the end: where it listens, what it prints, every way that it can fail."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

import pytest

from crib.web import serving
from crib.web.code import drawn, in_characters
from tests.cli.conftest import Crib

ROOT = Path(__file__).parents[2]


@pytest.fixture(autouse=True)
def served(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """Nothing is served; what would have been."""
    found: list[Any] = []
    monkeypatch.setattr(serving, "serve", lambda page, listener: (found.append(page), listener.close()))
    return found


@contextmanager
def taken() -> Iterator[int]:
    """A port at which somebody listens."""
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        listener.listen()
        yield listener.getsockname()[1]


def free() -> str:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return str(one.getsockname()[1])


def test_it_says_where_it_is_and_is_bound_to_this_machine(crib: Crib, served: list[Any]) -> None:
    came = crib("bench", "--port", port := free())
    assert came.status == 0 and f"http://127.0.0.1:{port}/" in came.out and "only this machine" in came.out
    assert served[0].key == "" and served[0].hosts >= {f"127.0.0.1:{port}", f"localhost:{port}"}


def test_one_json_document(crib: Crib) -> None:
    assert crib("bench", "--port", port := free(), "--json").json == {
        "address": f"http://127.0.0.1:{port}/", "key": None, "open": f"http://127.0.0.1:{port}/"}


@pytest.mark.parametrize("everywhere", [("--on-the-network",), ("--host", "0.0.0.0")])
def test_on_the_network_there_is_a_key_and_a_code(crib: Crib, served: list[Any], monkeypatch: pytest.MonkeyPatch,
                                                  everywhere: tuple[str, ...]) -> None:
    monkeypatch.setattr(serving, "own_address", lambda: "192.0.2.7")
    first = crib("bench", "--port", free(), *everywhere)
    assert first.status == 0 and "http://192.0.2.7:" in first.out and "?key=" in first.out and "█" in first.out
    assert "own network only" in first.out
    crib("bench", "--port", free(), "--on-the-network")
    keys = {page.key for page in served}
    assert len(keys) == 2 and all(len(key) >= 20 for key in keys)
    assert any(host.startswith("192.0.2.7:") for host in served[0].hosts)


def test_the_code_is_the_whole_address() -> None:
    """In the terminal and on the page: the rows of dark and light are those of the address's own symbol."""
    import segno

    address = "http://192.0.2.7:8737/?key=abc-DEF_123"
    side = len(segno.make(address, error="m", micro=False).matrix) + 2 * 4  # ISO/IEC 18004: four modules round it
    rows = re.sub(r"\x1b\[[^m]*m", "", in_characters(address)).splitlines()
    assert len(rows) == (side + 1) // 2 and {len(row) for row in rows} == {side}
    assert drawn(address).startswith("<svg") and "script" not in drawn(address)
    assert drawn(address) != drawn(address + "x")


def test_a_port_that_is_taken(crib: Crib) -> None:
    with taken() as port:
        came = crib("bench", "--port", str(port))
    assert came.status == 2 and f"port {port} is taken" in came.err and f"--port {port + 1}" in came.err


@pytest.mark.parametrize("words", [("--port", "0"), ("--port", "70000"), ("--port", "x"), ("--host", "nowhere.invalid"),
                                   ("--host", "203.0.113.9"), ("--host", ""), ("--host", "a b"), ("--host", "é" * 70),
                                   ("--on-the-network", "--host", "127.0.0.1")])
def test_where_nothing_can_listen(crib: Crib, words: tuple[str, ...]) -> None:
    """Addresses for documentation (RFC 5737), a name that never is (RFC 6761)."""
    came = crib("bench", *(() if "--port" in words else ("--port", free())), *words)
    assert came.status == 2 and came.err.startswith("crib: ") and "Traceback" not in came.err


def test_without_a_network(crib: Crib, monkeypatch: pytest.MonkeyPatch) -> None:
    def unreachable(*_: Any) -> None:
        raise OSError(101, "Network is unreachable")

    monkeypatch.setattr(socket.socket, "connect", unreachable)
    came = crib("bench", "--on-the-network", "--port", free())
    assert came.status == 2 and "in no network" in came.err


def test_no_browser(crib: Crib, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("webbrowser.open", lambda address: False)
    came = crib("bench", "--open", "--port", free())
    assert came.status == 0 and "no browser was found" in came.err and "http://" in came.err


def test_a_crib_that_isnt_one_is_said_at_once(crib: Crib, place: Path, served: list[Any]) -> None:
    place.write_bytes(b"not a database at all")
    came = crib("bench", "--port", free())
    assert came.status == 2 and "not a crib" in came.err and not served


def test_where_there_is_no_crib_yet_the_page_begins_it(crib: Crib, place: Path, served: list[Any]) -> None:
    assert crib("bench", "--port", free()).status == 0 and served and not place.exists()


def test_the_other_commands_dont_load_it() -> None:
    """A start of any other command pays nothing for it."""
    code = ("import sys; from crib.cli.app import run; run(['find', '--crib', 'nowhere.db']); run(['--help']); "
            "print([name for name in ('starlette', 'uvicorn', 'jinja2', 'crib.web') if name in sys.modules])")
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_it_ends_by_ctrl_c_with_a_status_of_nought(tmp_path: Path) -> None:
    port = free()
    process = subprocess.Popen([sys.executable, "-c", "from crib.cli import main; main()", "bench", "--crib",
                                str(tmp_path / "crib.db"), "--port", port], cwd=ROOT, text=True,
                               env={**os.environ, "PYTHONUNBUFFERED": "1"}, stdout=subprocess.PIPE,
                               stderr=subprocess.PIPE)
    assert process.stdout is not None and port in process.stdout.readline()
    connection = HTTPConnection("127.0.0.1", int(port), timeout=120)
    connection.request("GET", "/")
    assert connection.getresponse().status == 200
    process.send_signal(signal.SIGINT)
    _, err = process.communicate(timeout=120)
    assert process.returncode == 0 and not err
