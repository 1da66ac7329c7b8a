"""What may stand anywhere on the command line: which crib, which units, JSON, and how much to say of a failure."""

from __future__ import annotations

import os
from collections.abc import Collection, Mapping, Sequence

from crib.findings.errors import CribError
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass

if TYPE_CHECKING:
    from crib.app.in_words import Heard
    from crib.app.opening import Crib

UNITS = ("in", "mm")
_VALUES = ("--crib", "--units")
_FLAGS = ("--json", "--debug")

HELP = (
    ("--crib PATH_OR_URL", "The crib; else CRIB_DB, else the one in your data folder"),
    ("--units in|mm", "Units of what is typed and shown; else CRIB_UNITS, else the crib's own"),
    ("--json", "The answer as JSON, for other programs"),
    ("--debug", "Show where in the program a failure came from"),
    ("--help", "Show help for a command"),
)


@dataclass(frozen=True)
class Asked:
    """What was asked of the program as a whole. `units` is None where the crib's own hold; `heard`: the question, where
    it was asked in words."""

    crib: str | None = None
    units: str | None = None
    json: bool = False
    debug: bool = False
    heard: Heard | None = None

    def open(self, create: bool = False) -> Crib:
        """The crib that is asked, in the units asked for; with `create` begun where there is none. Raises
        `CribError`."""
        from crib.app.opening import open_crib

        crib = open_crib(self.crib, create, self.units)
        if self.heard is not None:
            self.heard.check_units(crib.units)
        return crib


def is_on(flag: str, words: Sequence[str]) -> bool:
    """Whether a flag stands among the words, before a lone `--`."""
    return flag in _before_dashes(words)


def split(words: Sequence[str], kept: Mapping[str, Collection[str]]) -> tuple[Asked, list[str]]:
    """What was asked as a whole, and the words that are left for the command.

    `kept` names the options that a command keeps for itself where they stand behind it. Raises `CribError`.
    """
    values: dict[str, str] = {}
    rest: list[str] = []
    own: Collection[str] = ()
    ours = _before_dashes(words)
    place = 0
    while place < len(ours):
        word = ours[place]
        name, equals, value = word.partition("=")
        place += 1
        if word in _FLAGS:
            continue
        if name in _VALUES and name not in own:
            if not equals:
                if place == len(ours):
                    raise CribError("usage", f"nothing stands behind {name}", name, f"{name} {_example(name)}")
                value = ours[place]
                place += 1
            values[name] = value
            continue
        if not rest and not word.startswith("-"):
            own = kept.get(word, ())
        rest.append(word)
    asked = Asked(values.get("--crib"), _units(values.get("--units")), is_on("--json", words), is_on("--debug", words))
    return asked, rest + list(words[len(ours):])


def _before_dashes(words: Sequence[str]) -> list[str]:
    return list(words[: words.index("--")]) if "--" in words else list(words)


def _example(name: str) -> str:
    return "in" if name == "--units" else "crib.db"


def _units(typed: str | None) -> str | None:
    for source, value in (("--units", typed), ("CRIB_UNITS", os.environ.get("CRIB_UNITS") or None)):
        if value is not None:
            if value not in UNITS:
                raise CribError("units", f"{source} {value!r} is neither in nor mm", value, "in or mm")
            return value
    return None
