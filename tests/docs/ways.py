"""For every kind of feature every way in which the sample bench can make it, with its picture: `python -m
tests.docs.ways` writes sample_crib/WAYS.md and its drawings anew.

A way is told from another by how the work lies, the kinds of cutters in their order and what each does. Ways are found
by asking again without a cutter, or without a kind of cutter, that the last one used.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.features import KINDS
from crib.findings.message import counted
from crib.findings.verdicts import SHORT
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request
from crib.planning.best_plans import best_of
from crib.planning.dialled.finish import Proved
from crib.render.html.setup_sheet import picture_of
from crib.render.words import words
from crib.shop import Shop, from_json
from tests.docs.console import ROOT

HERE = ROOT / "sample_crib"
PAGE, DRAWINGS = HERE / "WAYS.md", HERE / "ways"
RENEW = "python -m tests.docs.ways writes it anew: look at what changed before keeping it"
MOST = 6
"""So many ways of a thing at the most: the best of them."""

_TRIES = 8
"""So often it is asked again at the most."""

ENDS = {"one": "one end closed", "closed": "both ends closed"}
LONG, CLOSED = {"length": "3"}, {"entry_hole": "15/16"}
"""What is asked with an end closed, and where both are what else there may be."""

OURS = {
    "dovetail": {"angle": "60", "depth": "5/16", "width": "1-1/2"},
    "chamfer": {"size": "1/8", "angle": "45"},
    "countersink": {"diameter": ".490", "angle": "82", "hole": "17/64"},
    "woodruff": {"width": "3/16+.0005-.0012", "diameter": "5/8+.018-.002", "depth": ".1513+.005-0", "shaft": "1"},
}
"""What is asked in place of a kind's example, which this bench can't make for a size that it hasn't got."""


@dataclass(frozen=True)
class Asked:
    """Something to be made, by its heading, and how it is asked."""

    title: str
    kind: str
    texts: tuple[tuple[str, str], ...]

    @property
    def name(self) -> str:
        """What its drawings are called by."""
        return re.sub(r"[^a-z0-9]+", "-", self.title.lower()).strip("-")


def everything() -> Iterator[Asked]:
    """Each kind by its example, then with its ends closed."""
    for name, kind in KINDS.items():
        for ends in kind.ends:
            own = {spec.key for spec in kind.sizes}
            more = {} if ends == kind.ends[0] else {**LONG, "ends": ends, **{
                key: text for key, text in CLOSED.items() if ends == "closed" and key in own}}
            title = name if not more else f"{name}, {ENDS[ends]}"
            yield Asked(title, name, tuple({**OURS.get(name, kind.example), **more}.items()))


@cache
def bench() -> tuple[tuple[Cutter, ...], Shop]:
    """The sample's cutters and shop."""
    from tests.test_sample_crib import CUTTERS

    named = tuple(one if one.label else one.but(label=label(one, "in")) for one in CUTTERS)
    return named, from_json(json.loads((HERE / "shop.json").read_text(encoding="utf-8")))


def ways(asked: Asked) -> list[Proved]:
    """The ways in which the bench can make it, the best first."""
    cutters, shop = bench()
    request = read_request(asked.kind, dict(asked.texts), shop, "in")
    found: dict[tuple[object, ...], Proved] = {}
    tries: list[frozenset[str | int]] = [frozenset()]
    for without in tries:
        if len(found) == MOST:
            break
        some = [one for one in cutters if not {one.kind, one.id} & without]
        if (proved := best_of(jobs_for(request, some, shop))) is None:
            continue
        found.setdefault(_told_apart(proved), proved)
        used = proved.plan.cutters[::-1]
        names: list[str | int] = [*(one.kind for one in used), *(one.id for one in used)]
        more = [without | {name} for name in names]
        tries += [less for less in dict.fromkeys(more) if less not in tries and len(tries) < _TRIES]
    return list(found.values())


def _told_apart(proved: Proved) -> tuple[object, ...]:
    draft = proved.draft
    if draft.is_round:
        return draft.question.setup.name, words(proved.plan.way, "in")
    return draft.question.setup.name, tuple((job.tool.cutter.kind, job.room, job.manner) for job in draft.jobs)


def section(asked: Asked) -> tuple[str, dict[str, str]]:
    """What the page says of something, and its drawings by their names."""
    texts = " ".join(f"--{key.replace('_', '-')}" + ("" if value == "yes" else f" {value}")
                     for key, value in asked.texts)
    lines, drawings = [f"## {asked.title}", "", f"`crib make {asked.kind} {texts}`", ""], {}
    found = ways(asked)
    if not found:
        cutters, shop = bench()
        advice = advise(read_request(asked.kind, dict(asked.texts), shop, "in"), cutters, shop).advice
        why = words(advice.says or (advice.refused[0].says if advice.refused else ""), "in")
        lines += [f"Nothing on this bench makes it. {_sentence(why)}", ""]
    for number, proved in enumerate(found, start=1):
        plan, name = proved.plan, f"{asked.name}-{number}.svg"
        drawings[name] = picture_of(proved, "in") + "\n"
        lines += [f"{number}. {SHORT[plan.answer]}: {words(plan.way, 'in')}; {words(plan.setup, 'in') or 'work flat'}; "
                  f"{counted(len(plan.passes), 'pass')}, {plan.minutes:.0f} min", "",
                  f"   ![{asked.title}, way {number}](ways/{name})", ""]
    return "\n".join(lines), drawings


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:].rstrip(".") + "."


HEAD = """# Every way on this bench

For every kind of feature, the ways in which the sample bench makes it, the best first, each with its picture: drawn
from the proof, to scale. Written by `python -m tests.docs.ways`; a test holds it current.

"""


def page() -> tuple[str, dict[str, str]]:
    """The whole page, and all its drawings."""
    sections, drawings = [], {}
    for asked in everything():
        said, drawn = section(asked)
        sections.append(said)
        drawings.update(drawn)
    return HEAD + "\n".join(sections), drawings


def main() -> None:
    """Write page and drawings; drawings of ways that are no more go."""
    text, drawings = page()
    DRAWINGS.mkdir(exist_ok=True)
    for old in DRAWINGS.glob("*.svg"):
        if old.name not in drawings:
            old.unlink()
    for name, drawing in drawings.items():
        (DRAWINGS / name).write_text(drawing, encoding="utf-8")
    PAGE.write_text(text, encoding="utf-8")
    print(f"{PAGE.relative_to(ROOT)}: {len(drawings)} ways of {len(list(everything()))} things")


if __name__ == "__main__":
    main()
