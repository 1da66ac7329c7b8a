"""From what is typed to one thread, never a guess between two: `10-32`, `#10-32 UNF`, `quarter twenty`, `M6x1`, `0BA`,
`3/8 whit`, `.190-32`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import cache

from crib.findings.errors import CribError
from crib.findings.message import Text
from crib.handbook.threads import words
from crib.handbook.threads.base import IN, Thread
from crib.handbook.threads.tables import number_size_mm, threads
from crib.light.patterns import pattern
from crib.light.records import dataclass

_SLACK_IN = 0.0006
_MOST_NAMED = 6
_LONGEST = 80
_STANDARD = ("UNC", "UNF", "UNEF")
_METRIC = pattern(r"^m\s*(?P<size>\d+(?:[.,]\d+)?)\s*(?P<sep>[x*/-])?\s*(?P<pitch>\d*[.,]?\d+)?\s*(?:mm)?$")
_BARE_METRIC = pattern(r"^(?P<size>\d+(?:[.,]\d+)?)\s*x\s*(?P<pitch>\d*[.,]\d+|[12])(?:\s*mm)?$")
_INCH = pattern(
    r"^(?P<hash>#\s*)?(?P<size>\d+[-\s]+\d+/\d+|\d+/\d+|\d*\.\d+|\d+)\s*\"?\s*"
    r"(?:(?P<sep>[-x*/\s])\s*(?P<tpi>\d+(?:\.\d+)?)?)?$")
HELP = "a thread is written 10-32, 1/4-20 UNC, M6x1, 0 BA, 3/8 BSW or 1/8 NPT"


@dataclass(frozen=True)
class Reading:
    """A thread as it was read: its hand, the class written behind it, and what should be told about the reading."""

    thread: Thread
    hand: str = "right"
    class_name: str | None = None
    notes: tuple[str, ...] = ()


@cache
def read_thread(text: str) -> Reading:
    """Read a thread. Raises `CribError` (`thread`) with the nearest valid readings where it is no thread, is misspelt,
    or could be several.

    >>> [read_thread(t).thread.designation for t in ("#10-32 UNF", "quarter twenty", ".190-32", "3/8 whit", "M6")]
    ['10-32 UNF', '1/4-20 UNC', '10-32 UNF', '3/8-16 BSW', 'M6x1']
    """
    return _read(text, guesses=True)


def _read(text: str, guesses: bool) -> Reading:
    """The same; with `guesses`, a word that isn't known is looked up once among those that are."""
    if len(text) > _LONGEST:
        raise _error(f"{text.strip()[:20]!r}... is too long for a thread", text[:80], HELP)
    if words.is_insert(text):
        raise _error(f"{text.strip()!r} is a tap for a wire insert: it cuts a larger thread than its name says", text,
                     "the thread without STI, if a plain one is meant")
    bare, class_name = words.plain(text)
    if not bare:
        raise _error("the thread is empty", text, HELP)
    hand = "left" if words.is_left(text) else "right"
    sizes, series, grade, strange = words.split_series(bare)
    if strange:
        raise _strange(text, bare, strange, guesses)
    thread, notes = _find(text, sizes.strip(), series, grade)
    return Reading(thread, hand, class_name, notes)


def _find(text: str, sizes: str, series: str | None, grade: str | None) -> tuple[Thread, tuple[str, ...]]:
    if series in (None, "metric") and (found := _METRIC.match(sizes)):
        return _metric(text, found, grade)
    if series == "metric":
        raise _error(f"{text.strip()!r} is no metric thread", text, "M and the size: M6, M6x1")
    if series == "BA":
        return _ba(text, sizes)
    if series in (None, "BSPP") and (found := re.match(r"^g\s*(.+)$", sizes)):
        return _sized(text, found.group(1), "BSPP")
    if series is None and (found := _BARE_METRIC.match(sizes)):
        near = [t for t in threads() if (t.is_metric or t.series == "BA")
                and abs(t.major_mm - _float(found["size"])) < 0.05 and abs(t.pitch_mm - _float(found["pitch"])) < 0.01]
        raise _error(f"{text.strip()!r} doesn't say which sort of thread it is", text, _did_you_mean(near) or HELP)
    return _sized(text, sizes, series)


def _metric(text: str, found: re.Match[str], grade: str | None) -> tuple[Thread, tuple[str, ...]]:
    size, sep, pitch = found.group("size", "sep", "pitch")
    same = [t for t in threads() if t.is_metric and abs(t.major_mm - _float(size)) < 1e-6]
    if not same:
        near = sorted((t for t in threads() if t.series == "ISO coarse"), key=lambda t: abs(t.major_mm - _float(size)))
        raise _error(f"M{size} is no metric thread in the tables", text, _did_you_mean(near[:3]))
    if sep and not pitch:
        raise _error(f"{text.strip()!r} has no pitch behind the {sep}", text, _did_you_mean(same))
    if pitch:
        exact = [t for t in same if abs(t.pitch_mm - _float(pitch)) < 1e-6]
        if exact:
            return exact[0], ()
        near = sorted(same, key=lambda t: abs(t.pitch_mm - _float(pitch)))
        raise _error(f"there is no M{size} with a pitch of {pitch}", text, _did_you_mean(near))
    kept = [t for t in same if t.series == ("ISO fine" if grade == "fine" else "ISO coarse")]
    if len(kept) != 1:
        raise _error(f"{text.strip()!r} could be several threads", text, _did_you_mean(kept or same))
    alone = (f"{text.strip()} without a pitch is the coarse one, {kept[0].designation}",) if not grade else ()
    return kept[0], alone


def _ba(text: str, sizes: str) -> tuple[Thread, tuple[str, ...]]:
    found = re.match(r"^#?\s*(\d+)$", sizes)
    number = int(found.group(1)) if found else -1
    thread = next((t for t in threads() if t.series == "BA" and t.name == str(number)), None)
    if thread is None:
        raise _error(f"{text.strip()!r} is no BA thread", text, "0 BA to 16 BA")
    return thread, ()


def _sized(text: str, sizes: str, series: str | None) -> tuple[Thread, tuple[str, ...]]:
    found = _INCH.match(sizes)
    if not found:
        raise _error(f"{text.strip()!r} is not a thread", text, _near_help(text))
    if found["tpi"] is None and series is None and _is_odd(found["size"]):
        likely = [t for t in threads() if t.name == found["size"].replace("/", "-")]
        raise _error(f"{text.strip()!r} is not a thread", text, _did_you_mean(likely))
    same = [t for t in threads() if _has_size(t, found["size"], bool(found["hash"])) and _in_series(t, series)]
    if not same:
        raise _no_such_size(text, found, series)
    if found["tpi"] is None:
        if found["sep"] and found["sep"].strip():
            raise _error(f"{text.strip()!r} has no pitch behind the {found['sep']}", text, _did_you_mean(same))
        return _only(text, same, series, written=False)
    tpi = float(found["tpi"])
    exact = [t for t in same if abs(t.tpi - tpi) < 0.01]
    if not exact:
        near = sorted(same, key=lambda t: abs(t.tpi - tpi))
        size = found["size"].strip()
        what = f"{text.strip()!r} is no thread in the tables: {size} is not made with {found['tpi']} to the inch"
        raise _error(what, text, _did_you_mean(near[:4]))
    return _only(text, exact, series, written=True)


def _is_odd(size: str) -> bool:
    """Whether a size is a fraction that nobody writes: 10/32, for 10-32."""
    top, _, bottom = size.partition("/")
    return bottom.isdigit() and top.isdigit() and bottom != "0" and Fraction(size).denominator != int(bottom)


def _only(text: str, found: Sequence[Thread], series: str | None, written: bool) -> tuple[Thread, tuple[str, ...]]:
    """The one thread that is meant: alone, or the Unified one where size and pitch are written, and then the others
    are told."""
    first = found[0]
    if series is None and all(t.series in ("NPT", "BSPP") for t in found):
        raise _error(f"{text.strip()!r} is a pipe thread, {first.major_mm / IN:.3f} in across outside; say so", text,
                     _did_you_mean(found))
    plain = [t for t in found if t.series not in ("NPT", "BSPP")] if series is None else list(found)
    if all(t.same_as(plain[0]) for t in plain):
        return plain[0], ()
    standard = [t for t in plain if t.series in _STANDARD or t.series.endswith("-UN")]
    if series is None and written and standard and all(t.same_as(standard[0]) for t in standard):
        others = [t for t in plain if not t.same_as(standard[0])]
        told = " or ".join(f"{t.designation} ({t.form.angle_deg:g} degrees)" for t in others)
        return standard[0], (f"read as {standard[0].designation}; if {told} is meant, say so",)
    raise _error(f"{text.strip()!r} could be several threads", text, _did_you_mean(plain))


def _has_size(thread: Thread, size: str, is_number: bool) -> bool:
    if thread.is_metric or thread.series == "BA":
        return False
    size = re.sub(r"^(\d+)[-\s]+(\d+/)", r"\1-\2", size.strip())
    if "." in size:
        return thread.series not in ("NPT", "BSPP") and abs(thread.major_mm / IN - float(size)) < _SLACK_IN
    named = thread.name.removeprefix("G ") if thread.series == "BSPP" else thread.name.rpartition("-")[0]
    if is_number:
        return named.isdigit() and abs(thread.major_mm - number_size_mm(int(size))) < 1e-6
    return named == size or (("/" in size or "/" in named) and _value(named) == _value(size))


@cache
def _value(size: str) -> Fraction | None:
    whole, _, rest = size.rpartition("-")
    try:
        return (Fraction(whole) if whole else Fraction(0)) + Fraction(rest)
    except (ValueError, ZeroDivisionError):
        return None


def _in_series(thread: Thread, series: str | None) -> bool:
    if series is None:
        return True
    return thread.series.endswith("-UN") if series == "UN" else thread.series == series


def _no_such_size(text: str, found: re.Match[str], series: str | None) -> CribError:
    size, tpi = found.group("size", "tpi")
    across = float(size) if "." in size else float(_value(re.sub(r"\s+", "-", size.strip())) or 0)
    of_series = [t for t in threads() if t.is_unified and _in_series(t, series)] or list(threads())
    near = sorted(of_series, key=lambda t: (abs(t.major_mm / IN - across), abs(t.tpi - float(tpi or t.tpi))))
    series_words = f" {series}" if series else ""
    what = f"there is no{series_words} thread of size {size.strip()} in the tables"
    return _error(what, text, _did_you_mean(near[:4]))


def _strange(text: str, bare: str, strange: list[str], guesses: bool) -> CribError:
    """A word that no thread is said with: what was probably meant, read once more, and left to the asker."""
    better = words.nearest_words(strange) if guesses else {}
    again = bare
    for wrong, right in better.items():
        again = again.replace(wrong, right)
    what = f"{text.strip()!r} is not a thread: {', '.join(map(repr, strange))} isn't known"
    if len(better) < len(strange):
        return _error(what, text, HELP)
    try:
        meant = _read(again, guesses=False).thread.designation
    except CribError as error:
        return _error(what, text, error.finding.fix or "")
    return _error(what, text, f"did you mean {meant}?")


def _near_help(text: str) -> str:
    from rapidfuzz import fuzz, process

    named = {t.designation: t for t in threads()}
    found = process.extract(text.strip().upper(), list(named), scorer=fuzz.WRatio, limit=3, score_cutoff=70)
    return _did_you_mean([named[name] for name, _, _ in found]) or HELP


def _did_you_mean(found: Iterable[Thread]) -> str:
    names: list[str] = []
    told: list[Thread] = []
    for thread in found:
        if not any(thread.same_as(other) for other in told):
            told.append(thread)
            names.append(thread.designation)
    if not names:
        return ""
    more = f", or one of {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else ""
    return f"did you mean {', '.join(names[:_MOST_NAMED])}{more}?"


def _error(what: str, text: str, right: Text) -> CribError:
    return CribError("thread", what, text, right or HELP)


def _float(text: str) -> float:
    return float(text.replace(",", "."))
