"""`crib take-in`: record cutters in words, by options, from a file, or line by line at the prompt."""

from __future__ import annotations

import os
from collections.abc import Mapping

from crib.app.opening import SOURCES
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import CUTTER_SLOTS
from crib.cli.declared import Command
from crib.cli.later import Path, typer
from crib.cli.status import Status
from crib.cli.take_in_lines import EXAMPLE, check_lines, stream, take_list
from crib.cli.take_in_told import tell_table
from crib.findings.errors import CribError
from crib.light.hints import Annotated


def _take_in(
    ctx: typer.Context,
    text: Annotated[list[str] | None, typer.Argument(help="What it is, in shop words; none: line by line")] = None,
    file: Annotated[Path | None, typer.Option("--file", help="CSV, JSON, lines of words; - is standard input")] = None,
    source: Annotated[str | None, typer.Option("--from", help="Where from: " + ", ".join(SOURCES))] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Take in without asking")] = False,
    again: Annotated[bool, typer.Option("--again", help="Take in a list that is in already once more")] = False,
    check: Annotated[bool, typer.Option("--check", help="Show how it is read, and store nothing")] = False,
    columns: Annotated[list[str] | None, typer.Option(
        "--map", help="What a column holds: \"Width of teeth=face\"; =nothing for none")] = None,
    *,
    texts: dict[str, str],
) -> Status:
    """Record cutters; what can't be read is held back with why."""
    asked: Asked = ctx.obj
    described = _described(source, text, file, texts)
    if text:
        _refuse_files(text)
        from crib.intake.arguments import texts_of

        if check:
            return check_lines(asked, texts_of(text), texts)
        return take_list(asked, texts_of(text), source, texts, None, again=True)
    if file is not None and str(file) != "-":
        from crib.cli.take_in_file import take_file

        return take_file(asked, file, source, texts, again or yes, check, columns or [], yes)
    if check or columns:
        raise CribError("usage", "--check and --map are for words or a file that is named", "", EXAMPLE)
    if described:
        from crib.app.tables import by_options

        return tell_table(asked, by_options(asked.crib, asked.units, texts, source))
    if out.is_asking() and not asked.json:
        from crib.cli.prompt import at_the_prompt

        return at_the_prompt(asked, source, texts)
    return stream(asked, source, texts, again or yes)


def _described(source: str | None, text: list[str] | None, file: Path | None, texts: Mapping[str, str]) -> bool:
    """Whether options describe the cutter. Raises `CribError` for what doesn't go together."""
    if source is not None and source not in SOURCES:
        from crib.intake.near import one_of

        raise CribError("choice", f"--from {source!r} is not known", source, one_of(source, SOURCES))
    described = bool(set(texts) - {"drawer"})
    if (file is not None) + bool(text) + described > 1:
        raise CribError("usage", "a file, words and options don't go together", " ".join(text or []),
                        "one of them at a time")
    return described


def _refuse_files(text: list[str]) -> None:
    """Raises `CribError` for the name of a file that is there, said as if it were a cutter."""
    for one in text:
        if one.rpartition(".")[2].isalpha() and "." in one and os.path.isfile(one):
            raise CribError("usage", f"{one} is a file, not a cutter", one, f"crib take-in --file {one}")


take_in = Command("take-in", _take_in, CUTTER_SLOTS)
