"""What waits on the disk until a list is kept is told as it would be from memory."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from crib.app.take_in import at_once, session_of
from crib.cli.asked import Asked
from crib.cli.take_in_told import document, said
from crib.cli.told_later import ToldLater
from crib.store import open_crib

LINES = ["3/8 2 fl end mill hss", "no idea what this is", "5/8 x 3/16 woodruff, ½ shank", "", "1/4 Ø drill 4\" long"]


@pytest.mark.parametrize("many", [0, 1, len(LINES)])
def test_it_is_told_as_from_memory(tmp_path: Path, capsys: pytest.CaptureFixture[str], many: int) -> None:
    with open_crib(str(tmp_path / "crib.db"), create=True) as crib:
        came = [*at_once(session_of(crib), LINES[:many])]
    done = [one for one in came if one is not None]
    for as_json in (True, False):
        with ToldLater(Asked(json=as_json), numbered=True) as told:
            for one in (*came, None):
                told.add(one)
            told.tell()
        shown = capsys.readouterr().out
        assert shown == (json.dumps(document(done, 1), indent=2) + "\n" if as_json else
                         "".join(f"{said(one, True)}\n" for one in done))
        assert told.is_any_done == any(one.is_done for one in done)
