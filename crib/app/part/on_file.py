"""The parts that are on file: read, looked over feature by feature, written."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from crib.features import KINDS
from crib.files import write
from crib.findings.errors import CribError
from crib.findings.finding import Finding, Grade
from crib.findings.message import joined, said
from crib.light.records import dataclass, replace
from crib.parts import edit
from crib.parts.blocks import Block, line_of, line_told, plainly, unread
from crib.parts.meeting import meetings
from crib.parts.order import Before, order_of
from crib.parts.part import Part, Placed
from crib.parts.toml import ReadPart, part_from_toml
from crib.planning.parts.asked import AskedPart, asked_feature, asked_of
from crib.shop import Shop
from crib.store import Crib, KeptPart


def parts(crib: Crib) -> list[tuple[KeptPart, ReadPart]]:
    """Every part that is on file, as it is kept and as it reads."""
    shop = crib.shop()
    return [(one, read_text(one.text, shop, one.name)) for one in crib.parts()]


def read_part(crib: Crib, name: str) -> Part:
    """The part of a name, with what of it couldn't be read. Raises `CribError` where there is none such, and where its
    stock can't be read."""
    kept = find(crib, name)
    return read_text(kept.text, crib.shop(), kept.name).whole


def find(crib: Crib, name: str) -> KeptPart:
    """The part of a name, or of the only name of which it is a word. Raises `CribError` where there is none."""
    if (found := on_file(crib, name)) is not None:
        return found
    every = crib.parts()
    having = [one for one in every if set(_words(name)) <= set(_words(one.name))]
    if len(having) == 1:
        return having[0]
    if not every:
        raise CribError("no-part", f"there is no part {name!r}, nor any other yet", name,
                        f'make it: crib part {name} --stock "4 x 2 x 1" --material 1018')
    from crib.intake.near import one_of

    raise CribError("no-part", f"there is no part {name!r}", name,
                    one_of(name, [one.name for one in having or every]))


def on_file(crib: Crib, name: str) -> KeptPart | None:
    """The part of that very name, its letters written as they may be; None where there is none."""
    return next((one for one in crib.parts() if _words(one.name) == _words(name)), None)


def _words(name: str) -> list[str]:
    return name.casefold().replace("-", " ").replace("_", " ").split()


def read_text(text: str, shop: Shop, name: str) -> ReadPart:
    """A part from its text, each feature asked as it will be planned: one that can't be asked is told with its line and
    left out of what is planned."""
    read = part_from_toml(text, name)
    if read.part is None:
        return read
    faults, kept = list(read.unread), []
    for one in read.part.features:
        try:
            asked_feature(read.part, one, shop)
            kept.append(one)
        except CribError as error:
            faults.append(_with_line(read.blocks[one.name], one, error))
    names = {one.name for one in kept}
    features = tuple(replace(one, after=tuple(other for other in one.after if other in names)) for one in kept)
    told = tuple(sorted(faults, key=line_told))
    return ReadPart(replace(read.part, name=name, features=features, unread=told), told, read.blocks)


def _with_line(block: Block, one: Placed, error: CribError) -> Finding:
    """Why a feature can't be asked, with the line that says it."""
    found = error.finding
    key = next((key for key, text in one.texts.items()
                if found.read and found.read in (text, key, key.replace("_", "-"))), "kind")
    says = said("{feature}: {why}", feature=one.name, why=found.says)
    return unread(line_of(block, key), says, found.read, found.fix or "")


def from_file(crib: Crib, name: str, path: Path, over: bool = False) -> Part:
    """Keep a part as a file has it, word for word. What of it can't be read is kept too, to be put right, and then
    raised. Raises `CribError` also where there is such a part already and it isn't to be written over, and for a file
    that can't be read."""
    text = _text_of(path)
    kept = on_file(crib, _a_name(name))
    if kept is not None and kept.text != text and not over:
        raise CribError("part", f"there is a part {kept.name} already", name,
                        "--over puts the file in its place (crib undo brings it back), or another name")
    read = read_text(text, crib.shop(), name)
    crib.keep_part(kept.name if kept else name, text)
    if faults := looked(read.part, crib.shop()).faults if read.part else read.unread:
        raise _not_all(path, faults)
    return read.whole


def name_in(text: str) -> str:
    """The name that a part's text gives it; empty where it gives none, or can't be read."""
    read = part_from_toml(text, "")
    return read.part.name if read.part else ""


def keep_text(crib: Crib, name: str, text: str, version: int) -> KeptPart:
    """Keep a part as it was typed, word for word, in the place of the `version` that was seen, 0 of a new one; what of
    it can't be read is kept too, to be put right. Raises `CribError` where somebody else changed it meanwhile."""
    if not name.strip():
        raise CribError("part", "the part has no name", name, "a name, such as slide")
    kept = on_file(crib, name)
    return crib.keep_part(kept.name if kept else name.strip(), text.replace("\r\n", "\n"), version)


def _a_name(name: str) -> str:
    """A name that a part may have. Raises `CribError` for one that nobody could type again."""
    if not name.strip() or not name.isprintable():
        raise CribError("part", f"{name!r} is no name for a part", name, "crib part slide --stock '4 x 2 x 1'")
    return name


def _text_of(path: Path) -> str:
    try:
        return path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise CribError("file", f"{path} can't be read: {(error.strerror or str(error)).lower()}", str(path),
                        "a part's file: crib part slide --from slide.toml") from error
    except UnicodeDecodeError as error:
        raise CribError("encoding", f"{path} isn't UTF-8 text", str(path), "save it as UTF-8") from error


def _not_all(path: Path, faults: Sequence[Finding]) -> CribError:
    """What of a file can't be read or can't be so, the first in full."""
    first, *more = faults
    says = said("{file}, {first}{more}", file=path.name, first=first.says,
                more="" if not more else said("; and {count} more: {others}", count=len(more),
                                              others=joined("; ", [one.says for one in more])))
    fix = said("{fix}; all of it is kept as it stands: put it right in the file and read it again with --over",
               fix=first.fix or "look at it")
    return CribError("part-file", says, first.read, fix)


def to_file(crib: Crib, name: str, path: Path, over: bool = False) -> KeptPart:
    """Write a part's text to a file, with all that its owner wrote. Raises `CribError`."""
    kept = find(crib, name)
    write(path, kept.text, over)
    return kept


@dataclass(frozen=True)
class Looked:
    """A part, the order that must hold between its features, and what is to be minded where they meet. `faults`: what
    of it can't be read and what can't be so: outside the stock, two in one place, an order that goes round."""

    part: Part
    asked: AskedPart
    order: tuple[Before, ...]
    findings: tuple[Finding, ...] = ()
    faults: tuple[Finding, ...] = ()


def look(crib: Crib, name: str) -> Looked:
    """A part as it is on file, looked over. Raises `CribError` where there is none such, and where its stock can't be
    read."""
    return looked(read_part(crib, name), crib.shop())


def looked(part: Part, shop: Shop) -> Looked:
    """A part looked over."""
    asked = asked_of(part, shop)
    met = meetings(part, asked.drawn)
    faults = [one for one in met if one.grade is Grade.ERROR]
    order: tuple[Before, ...] = ()
    try:
        order = order_of(part, asked.drawn)
    except CribError as error:
        faults.append(error.finding)
    return Looked(part, asked, order, tuple(one for one in met if one.grade is not Grade.ERROR),
                  (*part.unread, *faults))


def make(crib: Crib, name: str, head: Mapping[str, Any]) -> Part:
    """Begin a part with what its head says, or change what is said there of one that is on file. Raises `CribError`
    for what can't be read; then nothing is changed."""
    if (kept := on_file(crib, _a_name(name))) is not None:
        return _change(crib, kept, lambda text: edit.with_head(text, head))
    shop = crib.shop()
    text = _checked(edit.begun(name, {"units": shop.units, **head}), "", shop, name)
    crib.keep_part(name, text, 0)
    return read_text(text, shop, name).whole


def asked_before(crib: Crib, number: int) -> dict[str, str]:
    """What a question that was asked before asks, as a feature's block says it, without what the part says for all of
    its features. Raises `CribError` for no such."""
    past = crib.question(number)
    texts = {key: text for key, text in past.texts.items() if key not in ("material", "hours", "use", "mating")}
    return {"kind": past.kind, "units": past.units, **texts}


def add(crib: Crib, name: str, said: Mapping[str, Any], before: str = "") -> Part:
    """Put a feature to a part: its kind, its place and what it is asked with, by the keys of its text; `before`: the
    feature that is to come after it. Raises `CribError` for what can't be read or can't be; then nothing is changed."""
    block = {key.replace("_", "-"): value for key, value in said.items() if value != ""}

    def with_it(text: str) -> str:
        more = edit.with_feature(text, block)
        return _after(more, before, edit.names_in(more)[-1]) if before else more

    return _change(crib, find(crib, name), with_it)


def kind_of(crib: Crib, name: str, feature: str) -> str:
    """The kind of a feature of a part, by its name or its number in the list. Raises `CribError` where there is none,
    and where its kind isn't one."""
    kind = edit.said_of(find(crib, name).text, feature).get("kind", "")
    if kind not in KINDS:
        raise CribError("feature", f"{feature} is of no kind that there is: {kind!r}", str(kind), "one of " + ", ".join(
            KINDS))
    return str(kind)


def amend(crib: Crib, name: str, feature: str, said: Mapping[str, Any]) -> Part:
    """Say something else of a feature; None takes back what was said. Raises `CribError` as `add` does."""
    return _change(crib, find(crib, name), lambda text: edit.changed(text, feature, said))


def drop(crib: Crib, name: str, feature: str) -> Part:
    """Take a feature off a part; nothing comes after it any more. Raises `CribError`."""
    def without(text: str) -> str:
        less = edit.without(text, feature)
        gone = {*edit.names_in(text)} - {*edit.names_in(less)}
        for one in part_from_toml(text).whole.features:
            if gone & {*one.after} and one.name not in gone:
                after = [other for other in one.after if other not in gone]
                less = edit.changed(less, one.name, {"after": after or None})
        return less

    return _change(crib, find(crib, name), without)


def put_before(crib: Crib, name: str, first: str, then: str) -> Part:
    """Have a feature made before another. Raises `CribError`, also where the order then goes round in a circle."""
    return _change(crib, find(crib, name), lambda text: _after(text, then, first))


def _after(text: str, later: str, earlier: str) -> str:
    """The text in which one feature comes after another."""
    features = {feature.name.casefold(): feature for feature in part_from_toml(text).whole.features}
    for name in (later, earlier):
        if name.casefold() not in features:
            raise CribError("no-feature", f"the part has no feature {name!r}", name,
                            "one of " + ", ".join(one.name for one in features.values()))
    after = (*features[later.casefold()].after, features[earlier.casefold()].name)
    return edit.changed(text, later, {"after": list(dict.fromkeys(after))})


def _change(crib: Crib, kept: KeptPart, how: Callable[[str], str]) -> Part:
    """Change a part's text, unless somebody else did meanwhile."""
    shop = crib.shop()
    text = _checked(how(kept.text), kept.text, shop, kept.name)
    crib.keep_part(kept.name, text, kept.version)
    return read_text(text, shop, kept.name).whole


def _checked(text: str, before: str, shop: Shop, name: str) -> str:
    """The text, if nothing in it is wrong that wasn't before. Raises `CribError`."""
    was = {(one.says, one.read) for one in _faults(before, shop, name)} if before else set()
    for found in _faults(text, shop, name):
        if (found.says, found.read) not in was:
            raise CribError.of(found)
    return text


def _faults(text: str, shop: Shop, name: str) -> list[Finding]:
    """What is wrong in a text, without its lines: whoever changes a part by commands knows of none."""
    read = read_text(text, shop, name)
    return [plainly(one) for one in (looked(read.part, shop).faults if read.part else read.unread)]
