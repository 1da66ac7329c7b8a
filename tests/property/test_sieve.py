"""The sieve for large cribs tells nothing that looking closely doesn't: over every kind of cutter in the registry and
every kind of feature, and over invented cribs."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from math import inf

import pytest
from hypothesis import assume, event, given, note, settings
from hypothesis import strategies as st

from crib.cutters import KINDS as CUTTERS
from crib.cutters.base import LENGTH_KEYS, Cutter, Kind
from crib.features import KINDS
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.light.records import replace
from crib.machining import tools
from crib.machining.batches import Batch
from crib.planning import as_drawn
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request, texts_of
from crib.planning.best_plans import proved_plans
from crib.planning.large_cribs import sieves as together
from crib.planning.large_cribs.floors import Floors
from crib.planning.large_cribs.narrow import none_can
from crib.planning.large_cribs.sieve import Least, Sieve
from crib.planning.large_cribs.sieves import Sieves
from crib.planning.refused import refusals
from crib.planning.refused.near_limits import let_in, wider
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import Asked as SetUps
from crib.sample import shop_settings
from crib.shop import Shop, from_json
from tests.benchmarks.cribs import crib
from tests.benchmarks.plain_questions import plain_questions
from tests.property.test_completeness import questions
from tests.property.test_set_ups import asked as from_any_side
from tests.slant_strategies import SLANTED, slanted_cribs
from tests.strategies import brief, renumbered, shops
from tests.trials.sieve import differs, tried
from tests.unpruned import every_way

Asked = tuple[Request, tuple[Cutter, ...], Shop]
FEW = 8
"""Of so few cutters every plan there is is looked at."""

SLANTS = SLANTED.flatmap(lambda one: st.tuples(st.just(one), slanted_cribs(one, 4), shops()))


class Closer(Sieve):
    """One that looks at each cutter by itself, whatever limits it breaks, and however many are alike."""

    def by_limits(self, batch: Batch, kind: Kind) -> list[Least | None]:
        """Nothing."""
        return [None] * len(batch.cutters)


def check(every: SetUps, cutters: Sequence[Cutter], wanting: frozenset[str]) -> Counter[str]:
    """Hold the sieve of refusals, by batches and one by one, and the floors of plans, with walls nearer their limits
    too, to what each cutter comes to; how much of it was told."""
    sieves = Sieves([Sieve(jobs, refusals.in_order(jobs, wanting)) for jobs in every], bool(wanting))
    one_by_one = Sieves([Closer(jobs, refusals.in_order(jobs, wanting)) for jobs in every], bool(wanting))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(together, "ALIKE", 1)
        by_batches, told = sieves.told(cutters), Counter[str]()
        patch.setattr(together, "ALIKE", sys.maxsize)
        assert by_batches == one_by_one.told(cutters)
    wide = wider(every)
    likely = let_in(wide, cutters)
    for cutter, least in zip(cutters, by_batches, strict=True):
        rank = refusals.nearest(every, cutter, wanting)
        told["closer" if least is None else "no" if least else "can"] += 1
        assert cutter.id in likely or refusals.nearest(every, cutter, wanting, wide) == rank, cutter
        assert least is None or bool(least) == (rank is not None), (cutter, least, rank)
        assert not least or rank is None or least <= rank[:3], (cutter, least, rank)
        if not wanting:
            assert (rank is not None) == all(refusals.is_refused(jobs, cutter) for jobs in every), (cutter, rank)
    if every[0].down or every[0].question.has_corners:
        return told
    for jobs in (*every, *(jobs.widened for jobs in every if jobs.widens)):
        told += _check_floors(Floors(jobs))
    if none_can(every) and none_can([jobs.widened for jobs in every if jobs.widens]):
        told["nothing"] += 1
        assert not proved_plans(every, 1)
        told["parts"] += any(_takes_part(jobs) for jobs in every)
        assert len(cutters) > FEW or not every_way(tuple(jobs.question for jobs in every), every[0].tools)
    return told


def _takes_part(jobs: Jobs) -> bool:
    """Whether somebody takes a part of a room in which nobody does all."""
    shares = jobs.bounds().shares
    return any(some and not any(share.alone for share in some.values()) for some in shares.values())


def _check_floors(floors: Floors) -> Counter[str]:
    """No floor is over what the bounds tell, and what surely doesn't do a room has no job that does."""
    jobs, told = floors.jobs, Counter[str]()
    bounds = jobs.bounds()
    every, none = floors.doers, (inf,) * len(jobs.question.outline.rooms)
    doers = {one.place: one.rooms for one in every.all}
    for number, some in enumerate(every.every):
        told["band"] += 1
        for one in every.of(number):
            assert one.place >= some.place
            for place, (least, own) in enumerate(zip(some.rooms, one.rooms, strict=True)):
                assert least <= own, (one, some.rooms)
                assert own == inf or least <= floors.closely(one.tool, place) + 1e-9, (one, some.rooms, place)
    for number, tool in enumerate(jobs.tools):
        up, by_room = floors._up(tool.kind, tool.known.price), doers.get(number, none)
        assert floors.second <= up
        assert up <= bounds.comers.up(tool) + 1e-9
        for place, (room, floor) in enumerate(zip(jobs.question.outline.rooms, by_room, strict=True)):
            share = bounds.of(tool, room)
            floor = inf if floor == inf else max(floor, floors.closely(tool, place))
            if floor == inf:
                assert not jobs.does(tool, room) or jobs.stops(tool, room) or not share, (tool.owned, room.name)
            elif share and share.alone:
                assert floor <= min(one.money for one in share.alone) + 1e-9, (tool.owned, room.name, floor)
            told["never" if floor == inf else "floor"] += 1
    return told


def test_what_the_sieve_tells_holds() -> None:
    """Who surely can, can; who surely can't, can't, and falls short by no less; no plan costs less than its floor."""
    told: Counter[str] = Counter()

    @settings(max_examples=100)
    @given(st.one_of(questions(6), from_any_side(5), SLANTS), st.booleans(), st.booleans())
    def hold(asked: Asked, is_made: bool, is_later: bool) -> None:
        request, cutters, shop = asked
        note(brief(request, cutters, shop))
        try:
            with pytest.MonkeyPatch.context() as patch:
                patch.setattr(tools, "MANY", 0 if is_later else tools.MANY)
                every = jobs_for(request, cutters, shop)
        except CribError:
            assume(False)
        told.update(check(every, cutters, frozenset() if is_made else refusals.undone(every)))
        event(every[0].question.feature.kind)

    hold()
    assert {"no", "can", "closer", "never", "floor", "nothing", "parts"} <= {*filter(told.get, told)}, told


@pytest.mark.parametrize(("kind", "is_closed"), [("t-slot", False), ("slot", False), ("step", False), ("slit", False),
                                                 ("t-slot", True), ("slot", True)])
def test_plain_questions_of_drawers_as_they_are(kind: str, is_closed: bool) -> None:
    """The same of plain questions and drawers full of mills. A mill whose shank keeps it off a throat's floor was told
    to go down to it, so that its floor was over what it comes to."""
    shop, told = from_json(shop_settings()), Counter[str]()
    for seed in range(48, 53):
        words = next(plain_questions(kind, is_closed, seed))
        cutters = crib(100 + seed)[:80]
        try:
            every = jobs_for(read_request(words[0], texts_of(words[1:]), shop, "in"), cutters, shop)
        except CribError:
            continue
        told.update(check(every, cutters, frozenset()))
    assert {"no", "never"} <= set(told), told


@settings(max_examples=60)
@given(st.one_of(questions(8), from_any_side(6), SLANTS))
def test_an_answer_is_the_same_without_the_sieve(asked: Asked) -> None:
    """Verdict, plans, refusals shown and how many there are; with it no tool is made that nobody looks at."""
    request, cutters, shop = asked
    note(brief(request, cutters, shop))
    found, told, many, later = [], Sieves.told, as_drawn.MANY, tools.MANY
    try:
        for sieved in (True, False):
            Sieves.told = told if sieved else lambda self, some: [None] * len(some)  # type: ignore[method-assign]
            as_drawn.MANY, tools.MANY = (0, 0) if sieved else (many, later)
            found.append(advise(request, cutters, shop, most_refused=3))
    except CribError:
        assume(False)
    finally:
        Sieves.told, as_drawn.MANY, tools.MANY = told, many, later  # type: ignore[method-assign]
    event(str(found[0].advice.answer))
    assert found[0].advice == found[1].advice
    assert [one.draft.jobs for one in found[0].proved] == [one.draft.jobs for one in found[1].proved]


@settings(max_examples=60)
@given(st.one_of(questions(8), from_any_side(6), SLANTS), st.sampled_from((0.0, 4.0, 20.0)), st.sampled_from(
    ("mild steel", "6061")))
def test_what_is_surely_said_is_said_of_every_plan(asked: Asked, hours: float, metal: str) -> None:
    """The warnings that the least chance of scrap is reckoned by, of which no plan is without; what is held with care
    at the best, it may miss in place of it."""
    request, cutters, shop = asked
    request = replace(request, hours=hours, material=metal)
    note(brief(request, cutters, shop))
    try:
        every, found = jobs_for(request, cutters, shop), advise(request, cutters, shop)
    except CribError:
        assume(False)
    for jobs in every:
        if jobs.down:
            continue
        floors = Floors(jobs)
        said = floors.said
        for one in found.proved:
            if one.draft.question.setup == jobs.question.setup and not one.weighed.key[2]:
                told = {warning.id for warning in one.weighed.warnings}
                missed = {"G12"} if one.weighed.deviations else set()
                assert {warning.id for warning in said} <= told | missed, said
                assert floors.scrap <= one.weighed.reckoning.scrap + 1e-9
        event(" ".join(warning.id for warning in said))


def test_a_search_of_few_comes_to_an_end() -> None:
    """Where all that there are are within a step, and more money is needed, all the way is gone: it asked for the same
    step for ever."""
    words = ("t-slot", "--throat", ".3367", "--depth", ".4819", "--head-width", ".4893", "--head-height", ".1701",
             "--material", "6061", "--hours", "20")
    assert differs(words, crib(400), from_json(shop_settings())) is False


def test_no_floor_counts_a_throat_as_deep_as_only_some_get() -> None:
    """A throat is aimed as deep as the whole slot, and need only come to its head: a mill whose shank stops it in
    between takes fewer bites than down to where it is aimed at."""
    every = jobs_for(read_request("t-slot", {"bolt": "3/8", "material": "tool steel"}, Shop(), "in"), crib(151), Shop())
    assert _check_floors(Floors(every[0]))["floor"] > 20


def test_what_a_room_calls_for_stands_first_among_what_must_be_measured() -> None:
    """Of those that may do once they are measured a T-slot cutter stands before keyseat cutters: told beforehand as if
    it were none, it wasn't shown."""
    words = ("t-slot", "--throat", ".7581", "--depth", ".7056", "--head-width", "1.3642", "--head-height", ".2819",
             "--material", "tool steel")
    assert differs(words, crib(1000), from_json(shop_settings())) is False


def test_a_sample_of_questions_on_many_cutters(monkeypatch: pytest.MonkeyPatch) -> None:
    """Four of each kind, open and closed, on made-up cutters. The long run: `python -m tests.trials.sieve`."""
    monkeypatch.setattr(as_drawn, "MANY", 0)
    monkeypatch.setattr(tools, "MANY", 0)
    told, wrong = tried(120, 24)
    assert told == 24
    assert not wrong


@pytest.mark.parametrize("name", [name for name, kind in KINDS.items() if kind.example])
def test_every_kind_of_cutter_in_every_kind_of_feature(name: str) -> None:
    """The example of each kind of cutter, as it is and of other sizes, for the example of each kind of feature."""
    words = [word for key, text in KINDS[name].example.items() for word in (f"--{key.replace('_', '-')}", text)]
    examples = [kind.example for kind in CUTTERS.values() if kind.example]
    cutters = renumbered([example.but(**{key: value * share for key, value in sizes(example).items()})
                          for example in examples for share in (1.0, 0.6, 1.7)])
    try:
        every = jobs_for(read_request(name, texts_of(words), Shop(), "in"), cutters, Shop())
    except CribError:
        pytest.skip("it needs more than its example's sizes")
    if not every[0].down:
        check(every, cutters, frozenset())


def sizes(cutter: Cutter) -> dict[str, float]:
    """The lengths of a cutter that are known, but for its shank and bore."""
    return {key: value for key in LENGTH_KEYS
            if (value := getattr(cutter, key)) is not None and key not in ("shank_mm", "bore_mm")}
