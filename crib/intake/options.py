"""A cutter described by its options."""

from __future__ import annotations

import shlex
from collections.abc import Mapping
from typing import Any

from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES, read_value
from crib.intake.build import amended, build
from crib.intake.reading import Reading, Taken
from crib.store import HeldBack
from crib.units.words import told

_HELD = ("no-kind", "no-size")


def read_options(options: Mapping[str, str], units: str, currency: str) -> Reading:
    """One cutter from the texts of its options, by field; held back where it has no kind or no size.

    Raises `CribError` for a value that can't be read or can't be true.
    """
    values, typed = _values(options, units)
    try:
        cutter = build(values, currency)
    except CribError as error:
        if error.finding.id not in _HELD:
            raise
        why, help = told(error.finding, units)
        return Reading(held_back=(HeldBack(1, _as_typed(options), why, help, beside={"units": units}),))
    return Reading(taken=(Taken(cutter, typed),))


def amend_by_options(
    cutter: Cutter, options: Mapping[str, str], units: str, currency: str
) -> tuple[Cutter, dict[str, str | None]]:
    """A cutter after the options, and what was typed for its lengths. `unknown` takes a value away.

    Raises `CribError` for a value that can't be read or can't be true.
    """
    values, typed = _values(options, units)
    return amended(cutter, values, currency), {key: None if values[key] is None else text
                                               for key, text in typed.items()}


def _values(options: Mapping[str, str], units: str) -> tuple[dict[str, Any], dict[str, str]]:
    values = {key: read_value(key, text, units) for key, text in options.items()}
    typed = {key: text.strip() for key, text in options.items() if key in LENGTH_KEYS}
    return values, typed


def texts_as_typed(line: str) -> dict[str, str]:
    """The texts by field of options as they stand on a line; empty for a line that isn't made of options.

    >>> texts_as_typed("--kind end-mill --length-of-cut '1 in'"), texts_as_typed("-- 3/8 drill"), texts_as_typed("--'")
    ({'kind': 'end-mill', 'length_of_cut_mm': '1 in'}, {}, {})
    """
    keys = {attribute.option: key for key, attribute in ATTRIBUTES.items()}
    try:
        words = shlex.split(line)
    except ValueError:
        return {}
    if len(words) % 2 or not keys.keys() >= set(words[::2]):
        return {}
    return {keys[name]: text for name, text in zip(words[::2], words[1::2], strict=True)}


def _as_typed(options: Mapping[str, str]) -> str:
    return shlex.join(part for key, text in options.items() for part in (ATTRIBUTES[key].option, text))
