"""From values to a cutter: what makes it one, what follows from a regrind, and what must still be asked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crib.cutters import in_doubt, kind_of
from crib.cutters.base import Cutter, Kind
from crib.cutters.checks import impossible
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES
from crib.intake.unlikely import unlikely
from crib.units import in_words

_HOW = ("measured", "stamped", "assumed")
_BARE = Cutter(0, "")
_MIC = "mic the diameter"
_OF_AN_END = ("flutes", "condition")
_DIAMETER = {"diameter_mm", "nominal_mm", "reground"}
"""What a double-ender has for each end, beside its sizes."""


def build(values: Mapping[str, Any], currency: str, questions: Sequence[str] = (),
          unread: Mapping[str, CribError] | None = None) -> Cutter:
    """A cutter from the values of its fields, lengths in mm; what isn't among them isn't known. `unread`: why a field
    that was given couldn't be read.

    Raises `CribError` where there is no kind or no size, or where it can't be true; for a size that was given and
    couldn't be read, the error that says why.
    """
    kind = values.get("kind")
    if not kind:
        raise CribError("no-kind", "it doesn't say what kind of cutter it is", "",
                        "add --kind, such as --kind end-mill")
    given = {key: value for key, value in values.items() if value is not None}
    stated = _BARE.but(**given)
    cutter = _settled(stated, currency)
    known = kind_of(cutter)
    if not _has_size(cutter, known) and (why := _first(unread or {}, known)):
        raise why
    check(cutter)
    doubt = (_doubt(stated),) if _is_doubtful(stated) else ()
    return ask(_with_questions(cutter, (*questions, *doubt)))


def amended(cutter: Cutter, changes: Mapping[str, Any], currency: str) -> Cutter:
    """A cutter with some values changed. Raises `CribError` where it can't be true afterwards."""
    if changes.get("reground") and not cutter.reground:
        cutter = _freshly_reground(cutter)
    settled = in_doubt.question(cutter) if "angle_deg" in (*changes, *changes.get("measured", ())) else None
    looks = kind_of(cutter).speech.looks
    said = {key: value for key, value in changes.items() if value is not None}
    looked = {*looks({})} - {*looks(said)}  # what an empty line would be asked, and this change answers
    kept = [question for question in cutter.questions if question not in (*asked(cutter), settled, *looked)
            and not any(question.startswith(f"{ATTRIBUTES[key].name} ") for key in changes)]
    values = {**changes, **_how(cutter, changes)}
    first = {key: value for key, value in values.items() if key.endswith(("_mm", "_deg")) or key in _OF_AN_END}
    ends = (cutter.ends[0].but(**first), *cutter.ends[1:]) if cutter.ends else ()
    stated = cutter.but(**({"questions": tuple(kept)} | values), ends=ends)
    if _is_doubtful(stated):
        raise CribError("not-measured", _doubt(stated), "diameter", "add --measured diameter if it was")
    after = _settled(stated, currency)
    if ends and _DIAMETER & set(changes):
        end = ends[0].but(**{key: getattr(after, key) for key in _DIAMETER}, **_how(ends[0], values))
        after = after.but(ends=(end, *ends[1:]))
    check(after)
    return ask(after)


def _how(cutter: Cutter, changes: Mapping[str, Any]) -> dict[str, tuple[str, ...]]:
    """How values are known after changes: one that is changed is only stated, unless something else is said of it, and
    what is said of one holds alone."""
    anew = {key for key, value in changes.items() if value != getattr(cutter, key)}
    anew |= {key for how in _HOW for key in changes.get(how, ())}
    return {how: tuple(dict.fromkeys((*(key for key in getattr(cutter, how) if key not in anew),
                                      *changes.get(how, ())))) for how in _HOW}


def asked(cutter: Cutter) -> tuple[str, ...]:
    """What must be asked of a cutter as it is known now."""
    unknown = kind_of(cutter).unknowns(cutter)
    mic = cutter.reground and cutter.diameter_mm is None and all(one.key != "diameter_mm" for one in unknown)
    odd = (question for _, question in unlikely(cutter))
    return (*((_MIC,) if mic else ()), *odd, *(one.ask for one in unknown if one.at_once))


def ask(cutter: Cutter) -> Cutter:
    """The same cutter with those questions on it."""
    return _with_questions(cutter, asked(cutter))


def _with_questions(cutter: Cutter, more: Sequence[str]) -> Cutter:
    """The same with more questions on it, each once."""
    questions = tuple(dict.fromkeys((*cutter.questions, *more)))
    return cutter if questions == cutter.questions else cutter.but(questions=questions)


def _settled(cutter: Cutter, currency: str) -> Cutter:
    """What follows from what was said: a regrind makes the stamp a mere name, and a stamp is a size until then."""
    for key in cutter.measured:
        if getattr(cutter, key) is None:
            name = ATTRIBUTES[key].name
            raise CribError("measured", f"{name} is said to be measured, and isn't given", name, f"add --{name}")
    if cutter.reground and "diameter_mm" not in cutter.measured:
        nominal = cutter.nominal_mm if cutter.nominal_mm is not None else cutter.diameter_mm
        cutter = cutter.but(nominal_mm=nominal, diameter_mm=None)
    elif cutter.diameter_mm is None and cutter.nominal_mm is not None:
        cutter = cutter.but(diameter_mm=cutter.nominal_mm, stamped=(*cutter.stamped, "diameter_mm"))
    if cutter.price is not None and cutter.currency is None:
        cutter = cutter.but(currency=currency)
    return _in_one_way(cutter)


def _in_one_way(cutter: Cutter) -> Cutter:
    """Each value known in one way: measured goes before stamped, and stamped before typical."""
    stamped = tuple(key for key in dict.fromkeys(cutter.stamped)
                    if key not in cutter.measured and getattr(cutter, key) is not None)
    assumed = tuple(key for key in dict.fromkeys(cutter.assumed)
                    if key not in (*cutter.measured, *stamped) and getattr(cutter, key) is not None)
    is_so = stamped == cutter.stamped and assumed == cutter.assumed
    return cutter if is_so else cutter.but(stamped=stamped, assumed=assumed)


def _is_doubtful(stated: Cutter) -> bool:
    """Whether a regrind has a diameter besides its stamp that nobody says was measured."""
    sizes = {stated.nominal_mm, stated.diameter_mm}
    return stated.reground and "diameter_mm" not in stated.measured and None not in sizes and len(sizes) > 1


def _doubt(stated: Cutter) -> str:
    return f"was the diameter, {in_words(stated.diameter_mm or 0.0, 'in')}, measured? the cutter is reground"


def _freshly_reground(cutter: Cutter) -> Cutter:
    """What was measured before a regrind is no longer so; the stamp stays."""
    nominal = cutter.nominal_mm if cutter.nominal_mm is not None else cutter.diameter_mm
    measured = tuple(key for key in cutter.measured if key != "diameter_mm")
    return cutter.but(nominal_mm=nominal, diameter_mm=None, measured=measured)


def check(cutter: Cutter) -> None:
    """Raises `CribError` for a cutter that has no size or can't be true."""
    kind = kind_of(cutter)
    if not _has_size(cutter, kind):
        names = " or ".join(f"--{ATTRIBUTES[key].name}" for key in kind.size_keys)
        raise CribError("no-size", f"it doesn't say what size the {kind.words} is", kind.name, f"add {names}")
    for found in (*impossible(cutter), *kind.check(cutter), *(one for end in cutter.ends for one in impossible(end))):
        raise CribError.of(found)


def _has_size(cutter: Cutter, kind: Kind) -> bool:
    return any(getattr(cutter, key) is not None for key in _size_keys(kind))


def _size_keys(kind: Kind) -> tuple[str, ...]:
    return (*kind.size_keys, "nominal_mm") if "diameter_mm" in kind.size_keys else kind.size_keys


def _first(unread: Mapping[str, CribError], kind: Kind) -> CribError | None:
    """Why the size that names a cutter of the kind couldn't be read."""
    return next((unread[key] for key in _size_keys(kind) if key in unread), None)
