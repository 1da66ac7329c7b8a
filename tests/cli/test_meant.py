"""Commands by what people call them."""

from __future__ import annotations

from importlib.metadata import version

import pytest

from crib.cli.commands import COMMANDS
from crib.cli.meant import other_words
from tests.cli.conftest import Crib


@pytest.mark.parametrize(("said", "meant"), [
    ("add", "take-in"), ("list", "find"), ("scrap", "now"), ("edit", "amend"), ("buy", "worth"), ("log", "history")])
def test_a_command_is_known_by_its_meaning(crib: Crib, said: str, meant: str) -> None:
    """`crib add` listed all the commands, and `crib list` had no help at all."""
    done = crib(said)
    assert done.status == 2 and f"did you mean crib {meant}" in done.err
    assert all(one.split()[1] in COMMANDS for one in other_words(said))


def test_help_in_words_and_the_version(crib: Crib) -> None:
    assert crib("help", "find").out == crib("find", "--help").out
    assert crib("--version").out.strip() == f"crib {version('crib-advisor')}"


@pytest.mark.parametrize(("typed", "command"), [(("labels", "--to"), "labels"), (("make", "slot", "--width"), "make")])
def test_an_option_without_its_value_names_the_help_of_its_command(crib: Crib, typed: tuple[str, ...], command: str
                                                                  ) -> None:
    """It named the page of all commands, which says nothing of the option."""
    done = crib(*typed)
    assert done.status == 2 and f"crib {command} --help shows what it takes" in done.err
