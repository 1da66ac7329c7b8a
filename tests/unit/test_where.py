"""Where a crib is kept, as Windows, macOS and Linux name it: the program chooses a folder of the user's own."""

from __future__ import annotations

from pathlib import Path, PureWindowsPath

import pytest

from crib.store import where


def test_the_environments_crib_may_be_a_path_of_windows(monkeypatch: pytest.MonkeyPatch) -> None:
    """A drive's colon makes no URL of it."""
    monkeypatch.setenv(where.VARIABLE, "C:\\Shop\\crib.db")
    found = where.place(None)
    assert found.url is None and found.path is not None
    assert PureWindowsPath(str(found.path)) == PureWindowsPath("C:/Shop/crib.db")


def test_the_folder_on_windows_is_the_local_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """%LOCALAPPDATA% and not the roaming profile, which is copied over the network while it is open."""
    from platformdirs import windows

    data = "C:\\Users\\ana\\AppData\\"
    folders = {"CSIDL_LOCAL_APPDATA": data + "Local", "CSIDL_APPDATA": data + "Roaming"}
    monkeypatch.setattr(windows, "get_win_folder", folders.__getitem__)
    ours = windows.Windows("crib", appauthor=False)
    assert PureWindowsPath(ours.user_data_dir) == PureWindowsPath(data, "Local", "crib")


def test_the_folder_on_a_mac_and_on_linux(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    from platformdirs.macos import MacOS
    from platformdirs.unix import Unix

    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.delenv("XDG_DATA_HOME", raising=False)
    assert MacOS("crib", appauthor=False).user_data_path == tmp_path / "Library/Application Support/crib"
    assert Unix("crib", appauthor=False).user_data_path == tmp_path / ".local/share/crib"


def test_the_program_asks_for_that_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A folder of the program's name alone, without an author's between."""
    monkeypatch.delenv(where.VARIABLE, raising=False)
    asked: list[tuple[object, ...]] = []

    def folder(*names: object, **more: object) -> Path:
        asked.append((*names, *more.items()))
        return tmp_path / "Local" / "crib"

    monkeypatch.setattr("platformdirs.user_data_path", folder)
    assert where.place(None).path == str(tmp_path / "Local" / "crib" / "crib.db")
    assert asked == [("crib", ("appauthor", False))]
