"""The page for an answer: first what sets the machine or leads on, on one screen, then what was asked for beside it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from crib.features import KINDS
from crib.findings.message import Deg, Head, Measure, Reading, Sentence, Text, joined, said
from crib.findings.verdicts import SHORT, WORDS, Verdict
from crib.light.hints import Any
from crib.pages.blocks import Block, Blocks, Bullets, Heading, Paragraph, Tone, clauses, spaced
from crib.pages.first_screen import first_screen
from crib.pages.more import ALL, More
from crib.pages.outcome import assumed
from crib.pages.refusals import more_of, refused_ones, ways_out
from crib.pages.remarks import name
from crib.pages.scene import Scene
from crib.planning.told.advice import Advice, Plan
from crib.shop import Shop

_REFUSED = 6
NOT_YET = "not found yet - there may be a way: not all of them could be tried in the time"
"""The answer where nothing was found before the time was over."""
_RUNNERS_UP = 4
TONES = {Verdict.AS_DRAWN: Tone.GOOD, Verdict.EXTRA_PASSES: Tone.GOOD, Verdict.COMPROMISE: Tone.MIND,
          Verdict.MEASURE_FIRST: Tone.MIND, Verdict.CANNOT: Tone.BAD, Verdict.REFER: Tone.BAD}
_ENDS = {"one": ("one end closed",), "closed": ("both ends closed",)}


def page(advice: Advice, scenes: Sequence[Scene | None] = (), refused: int | None = _REFUSED,
         more: Collection[More] = ALL, shop: Shop | None = None, pieces: int = 1) -> Blocks:
    """The page. `scenes`: the picture of each plan, in the plans' order; only the best one is drawn. `refused`: how
    many refused cutters to show, or None for all; `more`: what is shown beside the first screen, and the `shop` whose
    settings are behind the cost; `pieces`: how many are to be made, where the plan is one's."""
    head = list(verdict(advice))
    if advice.answer == Verdict.REFER:
        return (*head, _echo(advice))
    scene = scenes[0] if scenes else None
    groups: list[Sequence[Block]] = [head]
    if advice.plans:
        first, *rest = first_screen(advice, scene, pieces)
        groups = [[*head, *first], *rest]
    else:
        groups += [ways_out(advice)]
    groups += [_way_in(advice), _changes(advice), _away(advice), *([] if advice.plans else [_buy(advice)])]
    groups += beside(advice, scene, refused, more, shop)
    return spaced([*groups, _rest(advice, more)])


def beside(advice: Advice, scene: Scene | None, refused: int | None, more: Collection[More], shop: Shop | None
           ) -> list[Sequence[Block]]:
    """What was asked for beside the first screen; what was asked is said again where it isn't drawn."""
    groups: list[Sequence[Block]] = []
    plan = advice.plans[0] if advice.plans else None
    if plan and More.STEPS in more:
        from crib.pages.steps import steps

        groups += steps(advice, plan, scene)
    if More.WHY in more or not plan or advice.feature.get("doubtful"):
        groups.append([_echo(advice)])
    if More.WHY in more:
        from crib.pages.why import why

        groups += why(advice, plan, shop) if plan else [assumed(advice.assumed)]
    if plan and More.OTHERS in more:
        groups += [_runners_up(advice), _buy(advice)]
    if More.REFUSED in more or not plan:
        groups.append(refused_ones(advice, refused, More.REFUSED in more))
    return groups


def _echo(advice: Advice) -> Paragraph:
    return Paragraph(asked(advice), "Asked", hang=2)


def _rest(advice: Advice, more: Collection[More]) -> list[Block]:
    """Where the rest is that isn't shown."""
    ways = "the way of each pass, " if advice.plans and any(one.way_says for one in advice.plans[0].passes) else ""
    told = {More.STEPS: f"hold, touch off, {ways}dials, remarks", More.WHY: "" if advice.plans else "assumed",
            More.OTHERS: ", ".join(_other_ways(advice)),
            More.REFUSED: str(advice.refused_count)}
    gone = {More.REFUSED: told[More.REFUSED] == "0", More.OTHERS: not told[More.OTHERS], More.STEPS: not advice.plans,
            More.WHY: not (advice.plans or advice.assumed)}
    parts = [f"--{one} ({says})" if says else f"--{one}" for one, says in told.items()
             if not (one in more or gone[one])]
    return [Paragraph(", ".join([*parts, "--all"]), "More", hang=2)] if parts else []


def _other_ways(advice: Advice) -> list[str]:
    count = len(advice.plans) - 1
    good = f", {len(advice.as_good)} as good" if advice.as_good else ""
    return ([f"{count} plan{'' if count == 1 else 's'}{good}"] if count > 0 else []) + (
        [_label(advice).lower()] if advice.buy and advice.plans else [])


def asked(advice: Advice, metal: bool = True) -> Text:
    """What was asked, in a line: `t-slot, throat .625, depth .520, grey iron`; the metal only where it isn't told
    elsewhere."""
    feature = advice.feature
    return joined(", ", [str(feature.get("kind", "")), *_ENDS.get(feature.get("ends", ""), ()), *_options(advice),
                         *_sizes(advice),
                         *(str(feature[key]) for key in ("material", "hardness")[not metal:] if feature.get(key)),
                         *([f"to fit {feature['mating']}"] if feature.get("mating") else []), *_walls(advice)])


def _options(advice: Advice) -> Iterator[str]:
    """What was said beside sizes: a thread, how many."""
    kind = KINDS.get(str(advice.feature.get("kind", "")))
    for option in kind.options if kind else ():
        value = str(advice.feature.get(option.key, ""))
        if value and value != "no":
            yield option.key.replace("_", " ") + ("" if value == "yes" else f" {value}")


def _sizes(advice: Advice) -> Iterator[Text]:
    """Angles, then sizes, as they were typed where that is known."""
    for key, value in advice.feature.items():
        if key.endswith("_deg"):
            yield f"{key[:-4]} {value:g}°"
    for key, value in advice.feature.items():
        if key.endswith("_mm") and isinstance(value, int | float):
            yield said("{key} {size}", key=key[:-3].replace("_", " "), size=_typed(advice, key[:-3]) or Measure(value))


def _typed(advice: Advice, key: str) -> Text:
    """A size as it was typed, and its limits as they were read; nothing where no limits were typed."""
    text = str(advice.feature.get("typed", {}).get(key, ""))
    least, most = advice.feature.get(f"{key}_limits_mm", (0.0, 0.0))
    if not text or least == most:
        return text
    limits = said("{least} to {most}", least=Reading(least), most=Reading(most))
    if key in advice.feature.get("doubtful", ()):
        return said("{text} ({limits} taken: measure it)", text=text, limits=limits)
    return said("{text} ({limits})", text=text, limits=limits)


def _walls(advice: Advice) -> Iterator[Text]:
    for wall in advice.feature.get("walls", ()):
        yield said("a wall {high} high at {at}", high=Measure(wall["height_mm"]), at=Measure(wall["distance_mm"]))


def verdict(advice: Advice) -> Iterator[Paragraph]:
    """The answer in words, and what decides it where no plan does."""
    found_none = advice.in_part and not advice.plans and advice.answer == Verdict.CANNOT
    yield Paragraph(NOT_YET if found_none else WORDS[advice.answer], "Answer", hang=2, tone=TONES[advice.answer])
    if advice.says:
        yield Paragraph(Sentence(advice.says))
    if "mate" in advice.feature:
        yield from _fit(advice.feature["mate"])


def _fit(mate: Mapping[str, Any]) -> Iterator[Paragraph]:
    """The fit that a size was taken from, with its limits and its least and most clearance; what is to be miked."""
    least, most = mate["least_clearance_mm"], mate["most_clearance_mm"]
    lo, hi = mate["limits_mm"]
    named = mate["fit"] if mate["fit"] == mate["classes"] else f"{mate['fit']}, {mate['classes']}"
    first, last = Measure(abs(least), places=4), Measure(abs(most), places=4)
    room = said("{first} to {last} clear", first=first, last=last) if least >= 0 else \
        said("from {first} tight to {last} clear", first=first, last=last) if most > 0 else \
        said("from {first} tight to {last} tight", first=first, last=last) if most < 0 else \
        said("from {first} tight to line to line", first=first)
    inch = f"; in inch practice {mate['inch_practice']}" if mate["inch_practice"] else ""
    yield Paragraph(said("{named}: {lo} to {hi} for a {what} of {size}, {room}{inch}", named=named,
                         lo=Measure(lo, places=4), hi=Measure(hi, places=4), what=mate["what"],
                         size=Measure(mate["mate_mm"], places=4), room=room, inch=inch), "Fit", hang=2)
    if mate["ask"]:
        yield Paragraph(mate["ask"], "First", hang=2, tone=Tone.MIND)


def _changes(advice: Advice) -> list[Block]:
    """What change of the drawing would do, the smallest first, each with the plan that it lets in."""
    if advice.changes is None:
        return []
    items = []
    for one in advice.changes:
        angle = f"{one.key}_deg" in advice.feature
        before, after = (said("{value}°", value=Deg(value)) if angle else Measure(value)
                         for value in (one.before, one.after))
        items.append(said("{key} {after} instead of {before}: {answer}, {way}", key=one.key.replace("_", " "),
                          after=after, before=before, answer=SHORT[one.plan.answer], way=one.plan.way))
    none = Paragraph("no change of one size by up to a quarter would do", indent=2)
    return [Heading("With a change of the drawing, the smallest first"), Bullets(tuple(items)) if items else none]


def _way_in(advice: Advice) -> list[Block]:
    """The hole that would let a disc in between closed ends: what it is and takes, what it lets in, how it is made."""
    if (one := advice.way_in) is None:
        return []
    least, plan = one.change.after, one.change.plan
    hole = said("a hole {least} to {most} across, flat at the floor, {depth} down, in the middle of the length: "
                "nothing bears on what it takes of the lips", least=Measure(least), most=Measure(one.most_mm),
                depth=Measure(one.depth_mm))
    then = said("then {answer}, {minutes:.0f} min with the hole: {way}", answer=SHORT[plan.answer], way=plan.way,
                minutes=one.minutes)
    made = said("the hole: {way}", way=one.made.way) if one.made else \
        "the hole: no mill or flat drill that is owned makes it"
    again = said("to have it all: ask again with --entry-hole {least}+{wider}-0", least=Reading(least),
                 wider=Reading(one.most_mm - least))
    return [Heading("With an entry hole first"), Bullets((hole, then, made, again))]


def _runners_up(advice: Advice) -> list[Block]:
    """The plans after the first, a line each; how the work lies where that is another way than for the first, and
    whether one is as good."""
    plans, good = advice.plans, {one.place for one in advice.as_good}
    items = tuple(_runner_up(plan, plans[0], place in good)
                  for place, plan in enumerate(plans[1:_RUNNERS_UP + 1], 1))
    return [Heading("Would also do"), Bullets(items, 2), *more_of(len(plans) - _RUNNERS_UP - 1)] if items else []


def _runner_up(plan: Plan, first: Plan, as_good: bool) -> Text:
    count = f"{len(plan.passes)} pass{'' if len(plan.passes) == 1 else 'es'}"
    lying = said("; {how}", how=Head(plan.setup)) if plan.setup != first.setup else ""
    good = ", as good as the first" if as_good else ""
    return said("{answer}{good}: {way}{lying}; {cutters}; {cost}", answer=SHORT[plan.answer], good=good,
                way=plan.way, lying=lying,
                cutters=joined(" + ", map(name, plan.cutters)),
                cost=f"{count}, {plan.minutes:.0f} min, {plan.cost:.2f} {plan.currency}")


def _away(advice: Advice) -> list[Block]:
    """What is owned, isn't there, and would do better."""
    if not advice.away:
        return []
    told = clauses(said("no. {number}, {label}, {says}", number=one["cutter_id"], label=one["label"], says=one["says"])
                   for one in advice.away)
    words = SHORT[advice.away[0]["answer"]]
    return [Paragraph(said("{told} would make it \"{words}\"", told=told, words=words), "Not there", hang=2)]


def _buy(advice: Advice) -> list[Block]:
    says = advice.buy.get("says") if advice.buy else None
    return [Paragraph(Sentence(says), _label(advice), hang=2)] if says else []


def _label(advice: Advice) -> str:
    return "Borrowing" if advice.buy and advice.buy.get("advice") == "borrow" else "Buying"
