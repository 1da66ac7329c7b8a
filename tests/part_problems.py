"""Parts in the abstract for tests: small ones as hypothesis draws them, and larger ones as shops have them."""

from __future__ import annotations

from functools import cache
from itertools import pairwise, product
from random import Random

from hypothesis import strategies as st

from crib.planning.parts.problem import Before, Option, Problem, Rates, Step, Up, Waits

SETUPS, CUTTERS, HOLDERS = ("top", "bottom", "front"), ("a", "b", "c", "d"), ("1/2", "3/8", "chuck")


@st.composite
def options(draw: st.DrawFn) -> Option:
    """One to three operations, mostly in one set-up."""
    setup = draw(st.sampled_from(SETUPS))
    goes: list[Up] = []
    for cutter in draw(st.lists(st.sampled_from(CUTTERS), min_size=1, max_size=3)):
        up = Up(draw(st.sampled_from(SETUPS)) if draw(st.integers(0, 5)) == 0 else setup, cutter)
        goes += [up] if not goes or goes[-1] != up else []
    return Option(tuple(goes), float(draw(st.integers(1, 30))))


@st.composite
def rates(draw: st.DrawFn) -> Rates:
    """What changes cost; nothing is for nothing but now and then."""
    setups = {one: float(draw(st.sampled_from((0, 20, 20, 32)))) for one in SETUPS}
    touches = {one: float(draw(st.sampled_from((0, 3, 4)))) for one in CUTTERS}
    holders = {one: draw(st.sampled_from(HOLDERS)) for one in CUTTERS}
    return Rates(setups, touches, draw(st.sampled_from((0.0, 2.0, 2.5))), draw(st.sampled_from((0.0, 1.5))), holders)


@st.composite
def problems(draw: st.DrawFn, most: int = 3) -> Problem:
    """A few features with an order that goes round in no circle."""
    number = draw(st.integers(1, most))
    features = tuple(tuple(draw(st.lists(options(), min_size=1, max_size=3))) for _ in range(number))
    pairs = [(a, b) for b in range(len(features)) for a in range(b)]
    some = draw(st.lists(st.sampled_from(pairs), max_size=3, unique=True)) if pairs else []
    before = tuple(Before(a, b, draw(st.booleans())) for a, b in some)
    start = draw(st.sampled_from((Up(), Up(), Up("top", "a"), Up("top"), Up("gone", "a"), Up("top", "gone"))))
    return Problem(features, before, draw(rates()), start)


def best_by_hand(problem: Problem) -> float:
    """The least of every choice and every order, tried one by one; changes are counted here anew."""
    return min((_of_choice(problem, chosen) for chosen in product(*problem.features)), default=0.0)


def _of_choice(problem: Problem, chosen: tuple[Option, ...]) -> float:
    lengths = tuple(len(option.goes) for option in chosen)

    @cache
    def rest(done: tuple[int, ...], up: Up) -> float:
        if done == lengths:
            return 0.0
        return min((_change(problem.rates, up, chosen[at].goes[done[at]])
                    + rest((*done[:at], done[at] + 1, *done[at + 1:]), chosen[at].goes[done[at]])
                    for at in range(len(done)) if done[at] < lengths[at] and _may(problem, lengths, done, at)
                    and (chosen[at].goes[done[at]].setup == up.setup or not _is_half_done(chosen, done))),
                   default=float("inf"))

    return sum(option.cost for option in chosen) + rest((0,) * len(chosen), problem.start)


def _is_half_done(chosen: tuple[Option, ...], done: tuple[int, ...]) -> bool:
    """Whether a feature that is made in one set-up is begun and not ended."""
    return any(0 < count < len(one.goes) and len({up.setup for up in one.goes}) == 1
               for one, count in zip(chosen, done, strict=True))


def _may(problem: Problem, lengths: tuple[int, ...], done: tuple[int, ...], at: int) -> bool:
    is_last = done[at] == lengths[at] - 1
    return all(done[first] == lengths[first] for first, then, last in problem.before
               if then == at and (is_last or not last))


def _change(rates: Rates, now: Up, then: Up) -> float:
    cost = 0.0
    if now.setup != then.setup:
        cost += rates.setups[then.setup]
    if now.cutter != then.cutter:
        cost += rates.cutter
        cost += rates.holder if now.cutter and rates.holders.get(now.cutter) != rates.holders[then.cutter] else 0.0
    if now != then:
        cost += rates.touches[then.cutter]
    return cost


def as_shops_have(random: Random, features: int) -> Problem:
    """A part as shops have them: most on one face, each feature with a few ways, drills one after the other, some
    things before others."""
    setups = [*"ttttttbbfe"]
    cutters = [f"mill {n}" for n in range(8)] + ["spot", "tap 1", "tap 2"] + [f"drill {n}" for n in range(6)]
    holders = {one: "chuck" if one[0] in "sdt" else f"collet {hash_of(one) % 3}" for one in cutters}
    some = []
    for _ in range(features):
        face = random.choice(setups)
        if random.random() < 0.45:
            drill = random.choice(cutters[11:])
            ends = ([], [random.choice(("tap 1", "tap 2"))], [f"mill {random.randrange(3)}"])
            goes = ["spot", drill, *random.choice(ends)]
            some.append((Option(tuple(Up(face, one) for one in goes), random.uniform(5, 25)),))
            continue
        ways = []
        for _ in range(random.randint(1, 6)):
            goes = random.sample(cutters[:8], random.choice((1, 1, 1, 2)))
            ways.append(Option(tuple(Up(face, one) for one in goes), random.uniform(8, 60)))
        some.append(tuple(ways))
    pairs = [sorted(random.sample(range(features), 2)) for _ in range(features // 4)]
    before = tuple(Before(a, b, random.random() < 0.2) for a, b in pairs)
    rates = Rates(dict.fromkeys("tbfe", 20.0), dict.fromkeys(cutters, 3.0), 2.0, 1.5, holders)
    return Problem(tuple(some), before, rates)


def hash_of(name: str) -> int:
    """The same number for the same name, whenever it is run."""
    return sum(map(ord, name))


def nearest_change(problem: Problem) -> float:
    """What it costs where each feature is made in the way that is cheapest by itself, always going on with what asks
    for the least change."""
    rates = problem.rates
    chosen = [min(some, key=lambda option: option.cost + _alone(rates, option)) for some in problem.features]
    lengths, done, up = tuple(len(one.goes) for one in chosen), [0] * len(chosen), problem.start
    cost = sum(option.cost for option in chosen)
    order = Waits(problem, tuple(some.index(one) for some, one in zip(problem.features, chosen, strict=True)))
    while tuple(done) != lengths:
        stays = _is_half_done(tuple(chosen), tuple(done))
        gone = sum(1 << number for number, (at, place) in enumerate(order.steps) if place < done[at])
        able = [at for at in range(len(done)) if done[at] < lengths[at]
                and not order.waits[order.place[Step(at, done[at])]] & ~gone
                and (chosen[at].goes[done[at]].setup == up.setup or not stays)]
        change, at = min((_change(rates, up, chosen[at].goes[done[at]]), at) for at in able)
        cost, up = cost + change, chosen[at].goes[done[at]]
        done[at] += 1
    return cost


def _alone(rates: Rates, option: Option) -> float:
    ups = [Up(), *option.goes]
    return sum(_change(rates, a, b) for a, b in pairwise(ups))
