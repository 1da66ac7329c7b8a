"""What was rewritten of a test's asserts is read as long as its file is as it was."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.kept_asserts import kept


def test_it_is_rewritten_once_until_it_changes(tmp_path: Path) -> None:
    path, folder, made = tmp_path / "test_one.py", tmp_path / "kept", list[str]()
    folder.mkdir()

    def rewritten(path: Path, _: Any) -> tuple[bytes, Any]:
        made.append(path.read_text(encoding="utf-8"))
        return b"hash", compile(made[-1], path, "exec")

    def value() -> object:
        was, code = kept(rewritten, folder)(path, None)
        assert was == b"hash"
        found: dict[str, object] = {}
        exec(code, found)
        return found["one"]

    path.write_text("one = 1", encoding="utf-8")
    assert [value(), value()] == [1, 1] and len(made) == 1
    path.write_text("one = 22", encoding="utf-8")
    assert [value(), value()] == [22, 22] and len(made) == 2
    [file] = folder.iterdir()
    file.write_bytes(file.read_bytes()[:40])
    assert [value(), value()] == [22, 22] and len(made) == 3
    folder.joinpath(file.name).write_bytes(b"")
    assert value() == 22 and len(made) == 4
