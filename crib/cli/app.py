"""The program: what was asked, handed to one command, and every way that it can end."""

from __future__ import annotations

import contextlib
import io
import os
import sys
from collections.abc import Sequence

from crib.cli import out, plain
from crib.cli.asked import Asked, is_on, split
from crib.cli.commands import COMMANDS, may_be_words
from crib.cli.status import Status
from crib.findings import notices
from crib.findings.errors import CribError, failure
from crib.findings.finding import Finding

_HELP_NAMES = ("-h", "--help")


def run(words: Sequence[str]) -> Status:
    """Carry out one command line, print its answer, and give its status. Nothing but a bug is raised with --debug."""
    out.prepare()
    as_json = is_on("--json", words)
    if sys.stdout is None:
        return _fail(words, False, failure("stdout", "there is nowhere to print the answer", "", ""), None)
    try:
        try:
            status = _answer(words)
        finally:
            for said in notices.take():
                out.note(f"crib: {said}")
        if status is Status.STOPPED:
            raise KeyboardInterrupt
        out.flush()
        return status
    except CribError as error:
        return _fail(words, as_json, error.finding, error)
    except KeyboardInterrupt:
        return _fail(words, as_json, failure("stopped", "stopped", "", ""), None, Status.STOPPED)
    except (BrokenPipeError, SystemExit):
        _forget_stdout()
        return Status.FAILED
    except Exception as error:
        return _fail(words, as_json, _bug(words, error), error)


def _answer(words: Sequence[str]) -> Status:
    for word in words:
        if any("\ud800" <= sign <= "\udfff" for sign in word):
            raise CribError("encoding", f"{word!a} isn't UTF-8 text", ascii(word), "type it again in UTF-8")
    asked, rest = split(words, {name: entry.keeps for name, entry in COMMANDS.items()})
    if not rest and (asked.json or words):
        raise CribError("usage", "no command is given", " ".join(words), "one of " + ", ".join(COMMANDS))
    if asked.json and any(name in rest for name in _HELP_NAMES):
        with contextlib.redirect_stdout(io.StringIO()) as shown:
            _dispatch(asked, rest, words)
        out.answer(asked, {"help": shown.getvalue()}, ())
        return Status.ANSWERED
    return _dispatch(asked, rest or ["--help"], words)


def _dispatch(asked: Asked, rest: list[str], words: Sequence[str]) -> Status:
    """Carry out what is left of a command line: as a plain one, else by the library."""
    if rest[:1] == ["help"]:
        if rest[1:] == ["--man"]:
            return _man(asked)
        rest = [*rest[1:], "--help"]
    if rest == ["--version"]:
        from importlib.metadata import version

        number = version("crib-advisor")
        out.answer(asked, {"version": number}, [f"crib {number}"])
        return Status.ANSWERED
    if len(rest) == 1 and rest[0] in _HELP_NAMES:
        from crib.cli.first_page import first_page

        print(first_page(out.columns()))
        return Status.ANSWERED
    if may_be_words(rest):
        from crib.cli.in_words import in_options

        asked, rest = in_options(asked, rest)
    command = plain.read(rest)
    if command is not None:
        answered = command(asked)
    else:
        from crib.cli.library import dispatch

        answered = dispatch(asked, rest, words)
    return Status(answered) if isinstance(answered, int) else Status.ANSWERED


def _man(asked: Asked) -> Status:
    """The page for `man`."""
    from crib.cli.man import page

    text = page()
    out.answer(asked, {"man": text}, text.splitlines())
    return Status.ANSWERED


def _bug(words: Sequence[str], error: Exception) -> Finding:
    if isinstance(error, OSError):
        return failure("system", f"the system says: {(error.strerror or str(error)).lower()}", "", "")
    what = f"the program failed: {type(error).__name__}: {error}"
    return failure("bug", what, " ".join(words), "a fault of the program, not yours; --debug shows where")


def _fail(words: Sequence[str], as_json: bool, found: Finding, error: BaseException | None,
          status: Status = Status.FAILED) -> Status:
    """Say what went wrong, and where if that was asked for."""
    if error is not None and is_on("--debug", words):
        import traceback

        traceback.print_exception(error)
    try:
        out.failure(as_json, found, _units(words, found))
        out.flush()
    except OSError:
        from crib.units.words import told

        _forget_stdout()
        out.note(f"crib: {told(found, _units(words, found))[0]}")
    return status


def _units(words: Sequence[str], found: Finding) -> str:
    """The units to say it in, as far as the words tell where the crib is."""
    from crib.app.opening import units_for

    try:
        asked, _ = split(words, {name: entry.keeps for name, entry in COMMANDS.items()})
    except CribError:
        asked = Asked()
    return units_for(found, asked.crib, asked.units)


def _forget_stdout() -> None:
    """Nobody reads any more: keep the interpreter from complaining when it shuts down."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
