"""A PostgreSQL server of our own for the tests: begun when it is first wanted, gone at the end."""

from __future__ import annotations

import contextlib
import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
import uuid
from pathlib import Path

NAMED = "CRIB_TEST_POSTGRES"
"""A server's URL to try a shared crib on instead, such as postgresql+psycopg://me@localhost/test."""

NONE = "no PostgreSQL at hand, so shared cribs are not tried: install postgresql, or name a server in " + NAMED


def binaries() -> Path | None:
    """The folder of `initdb` and `postgres`: Debian's newest, else what is on the path."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]))
    on_path = shutil.which("initdb")
    return found[-1].parent if found else Path(on_path).resolve().parent if on_path else None


class Server:
    """A running server, reached through a socket in a folder of its own; nothing is kept safe on the disk. As root it
    runs as another user, who owns that folder and no other."""

    def __init__(self, programs: Path) -> None:
        self.programs = programs
        self.folder = Path(tempfile.mkdtemp(prefix="crib-pg-", dir="/tmp"))
        self._as: dict[str, object] = {}
        if os.geteuid() == 0:
            user = next(name for name in ("postgres", "nobody") if _is_user(name))
            entry = pwd.getpwnam(user)
            os.chown(self.folder, entry.pw_uid, entry.pw_gid)
            self._as = {"user": entry.pw_uid, "group": entry.pw_gid, "extra_groups": []}
        self._run("initdb", "-D", self.folder / "data", "-U", "crib", "-A", "trust", "-E", "UTF8", "--no-sync")
        self.start()

    def _run(self, name: str, *options: object) -> None:
        subprocess.run([str(self.programs / name), *map(str, options)], check=True, cwd="/", capture_output=True,
                       **self._as)  # type: ignore[call-overload]

    def start(self) -> None:
        """Begin serving."""
        self._run("pg_ctl", "-D", self.folder / "data", "-w", "-l", self.folder / "log", "-o",
                  f"-k {self.folder} -h '' -F -c full_page_writes=off -c max_connections=60", "start")

    def stop(self) -> None:
        """End, and take away all of it; one that died or was never begun again has ended already."""
        try:
            self._run("pg_ctl", "-D", self.folder / "data", "-w", "-m", "immediate", "stop")
        except subprocess.CalledProcessError:
            self.halt(signal.SIGKILL)
        shutil.rmtree(self.folder, ignore_errors=True)

    @property
    def url(self) -> str:
        """Its URL."""
        return f"postgresql+psycopg://crib@/postgres?host={self.folder}"

    def pids(self) -> list[int]:
        """The server and its helpers; nobody, if it has ended."""
        try:
            first = int((self.folder / "data" / "postmaster.pid").read_text().split()[0])
        except (FileNotFoundError, IndexError):
            return []
        listed = subprocess.run(["ps", "-o", "pid=", "--ppid", str(first)], capture_output=True, text=True).stdout
        return [first, *map(int, listed.split())]

    def halt(self, number: signal.Signals) -> None:
        """Send all of it a signal: stop, go on, or die; one of its helpers that went meanwhile needs none."""
        for pid in self.pids():
            with contextlib.suppress(ProcessLookupError):
                os.kill(pid, number)

    def again(self) -> None:
        """Begin again after it was killed."""
        for _ in range(20):
            try:
                return self.start()
            except subprocess.CalledProcessError:  # what it left in memory isn't gone yet
                time.sleep(0.25)
        self.start()


def _is_user(name: str) -> bool:
    try:
        return bool(pwd.getpwnam(name))
    except KeyError:
        return False


def with_schema(url: str) -> str:
    """The URL of a new empty schema there."""
    import psycopg

    schema = f"crib_{uuid.uuid4().hex}"
    with psycopg.connect(url.replace("+psycopg", ""), autocommit=True) as connection:
        connection.execute(f"CREATE SCHEMA {schema}")  # type: ignore[call-overload]
    return f"{url}{'&' if '?' in url else '?'}options=-csearch_path%3D{schema}"
