"""A bench page over a crib of one's own, asked as a browser would ask it."""

from __future__ import annotations

import re
import shutil
import warnings
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx
import pytest
from anyio.from_thread import start_blocking_portal

from crib.app import demo
from crib.web.bench import Bench
from crib.web.site import site

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from starlette.testclient import TestClient

HOST = "127.0.0.1:8737"


@dataclass
class Page:
    """What came of a request."""

    answer: httpx.Response

    @property
    def status(self) -> int:
        return self.answer.status_code

    @property
    def text(self) -> str:
        return self.answer.text


class Browser:
    """Asks a bench as a browser does: with its own address, its own origin and the token of the page."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        self.client = TestClient(site(bench), base_url=f"http://{HOST}", raise_server_exceptions=False)

    def get(self, path: str, **more: Any) -> Page:
        """A page."""
        return Page(self.client.get(path, **more))

    def post(self, path: str, typed: dict[str, Any], follow: bool = True, **more: Any) -> Page:
        """Send a form of a page of ours."""
        headers = {"origin": f"http://{HOST}", "sec-fetch-site": "same-origin"} | more.pop("headers", {})
        return Page(self.client.post(path, data={"token": self.bench.token, **typed}, headers=headers,
                                     follow_redirects=follow, **more))


@pytest.fixture(scope="session")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample crib, made once."""
    place = tmp_path_factory.mktemp("sample") / "crib.db"
    demo.copy(place)
    return place


def browser_at(place: Path, **more: Any) -> Browser:
    """A browser at a bench over a crib."""
    return Browser(Bench(str(place), hosts=frozenset({HOST, "localhost:8737"}), address=f"http://{HOST}/", **more))


@pytest.fixture(scope="session")
def onlooker(sample: Path) -> Iterator[Browser]:
    """A browser at one bench for all who change nothing: a crib and its answers needn't be made for each of them."""
    made = browser_at(Path(shutil.copy(sample, sample.with_name("looked-at.db"))))
    with start_blocking_portal() as made.client.portal:  # one thread for all requests, not one for each
        yield made


@pytest.fixture
def at(tmp_path: Path) -> Callable[..., Browser]:
    """A browser at a bench over a crib."""
    return lambda place=None, **more: browser_at(place or tmp_path / "crib.db", **more)


@pytest.fixture
def browser(sample: Path, tmp_path: Path, at: Callable[..., Browser]) -> Iterator[Browser]:
    """A browser at a bench over a copy of the sample crib."""
    made = at(Path(shutil.copy(sample, tmp_path / "copy.db")))
    with start_blocking_portal() as made.client.portal:
        yield made


def hidden(page: str, name: str) -> str:
    """What a form of a page carries in a hidden field."""
    found = re.search(rf'<input type="hidden" name="{name}" value="([^"]*)"', page)
    assert found, f"no hidden {name}"
    return found[1]
