"""The commands. To add one: write its file, and add a line here.

A target is `module:name` of a function, whose parameters are its options, of a `crib.cli.declared.Group`, or of a
`typer.Typer` with commands of its own. A function takes `ctx: typer.Context`, finds what was asked as a whole in
`ctx.obj`, and returns a `Status`.
"""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.errors import CribError
from crib.light.hints import Any
from crib.light.modules import load
from crib.light.tuples import NamedTuple


class Entry(NamedTuple):
    """Where a command is found, and what it does in a line; `keeps`: options it keeps from those that go anywhere."""

    target: str
    help: str
    keeps: tuple[str, ...] = ()


COMMANDS: dict[str, Entry] = {
    "take-in": Entry("crib.cli.take_in:take_in", "Take cutters in by words, options, a file, or at the prompt"),
    "find": Entry("crib.cli.find:find", "Find cutters by words and sizes"),
    "show": Entry("crib.cli.show:show", "Show all that is known of a cutter"),
    "amend": Entry("crib.cli.amend:amend", "Change what is known of a cutter"),
    "now": Entry("crib.cli.now:now", "Tell what became of a cutter: lent, back, lost, reground, dull, moved ..."),
    "out": Entry("crib.cli.abroad:listing", "List what is lent or lost, to whom and since when"),
    "history": Entry("crib.cli.history:history", "Show what was done, to one cutter or to all"),
    "undo": Entry("crib.cli.undo:undo", "Undo the last change, or the one with a number"),
    "shop": Entry("crib.cli.shop:shop", "Show or set what the shop has and asks for", keeps=("--units",)),
    "held-back": Entry("crib.cli.held_back:held_back", "List the lines that couldn't be taken in, or put one right"),
    "export": Entry("crib.cli.export:export", "Write the crib down as CSV or JSON"),
    "backup": Entry("crib.cli.backup:backup", "Copy the whole crib; the copy is read back before it counts"),
    "restore": Entry("crib.cli.backup:restore", "Put back a backup, into a new file unless told otherwise"),
    "salvage": Entry("crib.cli.backup:salvage", "Get out of a damaged crib what can be read"),
    "drawer": Entry("crib.cli.drawer:drawer", "Show what should lie in a place, drawn to scale"),
    "walk-round": Entry("crib.cli.walk_round:walk_round", "A list to tick, drawer by drawer"),
    "check-up": Entry("crib.cli.check_up:check_up", "Look the crib over for what is amiss, and put it right"),
    "labels": Entry("crib.cli.labels:labels", "Labels to print: size, silhouette and a code for each cutter"),
    "make": Entry("crib.cli.make:app", "Ask which cutters that you own can make something, and how"),
    "part": Entry("crib.cli.part:app", "Plan a whole part: what it is, in what order, with what"),
    "worth": Entry("crib.cli.worth:app", "Ask whether something is worth buying, or what else to do"),
    "wish-list": Entry("crib.cli.wish_list:wish_list", "Which purchases would save most, by all that was asked"),
    "price": Entry("crib.cli.price:price", "Note prices that you have seen, or list them"),
    "friends": Entry("crib.cli.friends:app", "Cutters that friends would lend"),
    "result": Entry("crib.cli.result:app", "Tell how long it took or what a hole measured: later answers go by it"),
    "asked": Entry("crib.cli.questions:questions", "List what was asked so far, or ask it again"),
    "to-mic": Entry("crib.cli.to_mic:to_mic", "Which cutters to measure so that most questions get an answer"),
    "tap": Entry("crib.cli.tap:tap", "Ask whether tap and drill belong together, and how deep to go"),
    "gauge": Entry("crib.cli.gauge:gauge", "Name an unmarked cutter, screw, hole or taper"),
    "kinds": Entry("crib.cli.named:kinds", "List features and kinds of cutter, with the words for each"),
    "materials": Entry("crib.cli.named:materials", "List materials, with the names and grades for each"),
    "bench": Entry("crib.cli.bench:bench", "The bench page: the crib on a phone, tablet or laptop beside the mill"),
    "completion": Entry("crib.cli.completion:completion", "Print what lets a shell complete commands and options"),
    "demo": Entry("crib.cli.demo:demo", "Try it on a sample crib"),
}


ASKING = ("make", "worth")
"""The commands that are asked about a kind of feature, by its name or in words."""


def may_be_words(rest: Sequence[str]) -> bool:
    """Whether a command line may ask in words; not where a kind and its options stand in it."""
    if rest[0] not in ASKING:
        return rest[0] not in COMMANDS and not rest[0].startswith("-")
    from crib.app.kinds import NAMES

    return len(rest) > 1 and not (rest[1] in NAMES and (len(rest) == 2 or rest[2].startswith("-")))


def target(name: str) -> Any:
    """What a command is made of, imported now. Raises `CribError` where it isn't part of this installation."""
    module, _, attribute = COMMANDS[name].target.partition(":")
    try:
        return getattr(load(module), attribute)
    except ModuleNotFoundError as error:
        if error.name != module:
            raise
        raise CribError("usage", f"the command {name!r} is not part of this installation", name,
                        "install the whole program again") from error
