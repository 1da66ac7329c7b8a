"""The parts that are on file: read, looked over feature by feature, written."""

from __future__ import annotations

from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.findings.message import said
from crib.parts.blocks import Block, line_of, unread
from crib.parts.part import Part, Placed
from crib.parts.toml import ReadPart, part_from_toml
from crib.planning.parts.asked import asked_feature
from crib.records import replace
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
    try:
        return crib.part(name)
    except CribError as error:
        every = crib.parts()
        having = [one for one in every if name.casefold() in _words(one.name)]
        if len(having) == 1:
            return having[0]
        if not every:
            raise CribError("no-part", f"there is no part {name!r}, nor any other yet", name,
                            f'make it: crib part {name} --stock "4 x 2 x 1" --material 1018') from error
        from crib.intake.near import one_of

        raise CribError("no-part", f"there is no part {name!r}", name,
                        one_of(name, [one.name for one in having or every])) from error


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
    return ReadPart(replace(read.part, features=features, unread=tuple(faults)), tuple(faults), read.blocks)


def _with_line(block: Block, one: Placed, error: CribError) -> Finding:
    """Why a feature can't be asked, with the line that says it."""
    found = error.finding
    key = next((key for key, text in one.texts.items()
                if found.read and found.read in (text, key, key.replace("_", "-"))), "kind")
    says = said("{feature}: {why}", feature=one.name, why=found.says)
    return unread(line_of(block, key), says, found.read, found.fix or "")
