"""What a line says, read off its slip piece by piece: first what says itself what it is, then the sizes."""

from __future__ import annotations

from crib.cutters import KINDS
from crib.cutters.speech import Order, Speech
from crib.intake.shorthand import aside, phrases, state
from crib.intake.shorthand.kinds import kind_by_name, kind_by_signs, no_kind, only_one_cutter, only_one_kind
from crib.intake.shorthand.labelled import read_labelled
from crib.intake.shorthand.reduced import shank_apart
from crib.intake.shorthand.settle import double_ended, fit, settle, span, told
from crib.intake.shorthand.sizes import place_sizes
from crib.intake.shorthand.slip import Held, Slip
from crib.intake.shorthand.threads import put_thread, thread


def read_off(slip: Slip, kind: str | None) -> str:
    """Read the phrases and sizes of a line off its slip; the kind. Raises `Held`."""
    named, found = _named(slip, kind)
    _phrases(slip, KINDS[named].speech if named else Speech(order=()), found is not None)
    left = read_labelled(slip, KINDS[named].speech.order if named else ())
    named = named or kind_by_signs(slip, found is not None)
    if named is None:
        raise no_kind(slip, found)
    order = KINDS[named].speech.order
    if found and order is Order.NUMBER:
        raise Held(f"{found} is a thread: is this the drill for its tap, or the tap?",
                   f"{found} tap, or the drill's own size, such as F drill")
    if found:
        put_thread(slip, found)
    slip.values["kind"] = named
    only_one_cutter(slip, named)
    aside.only_for(slip, named)
    shank_apart(slip, named)
    place_sizes(slip, named)
    settle(slip, named)
    slip.unused = [word for word in left if order not in (Order.NUMBER, Order.FIT) or len(word) > 1]
    return named


def _named(slip: Slip, kind: str | None) -> tuple[str | None, str | None]:
    """The kind that is named or goes without saying, and the thread; what comes before them is read first."""
    phrases.count_each(slip)
    phrases.money(slip)
    phrases.whence(slip)
    phrases.count(slip)
    aside.of_another(slip, kind)
    phrases.morse(slip)
    named = kind_by_name(slip) or kind
    if named:
        only_one_kind(slip, named)
    aside.offset(slip)
    return named, thread(slip, KINDS[named].speech.order if named else None)


def _phrases(slip: Slip, speech: Speech, threaded: bool) -> None:
    """What says itself what it is."""
    pointed = speech.order in ((), Order.NUMBER) and slip.has("split|point")
    aside.per_foot(slip, speech.order)
    phrases.angles(slip, speech.angle is not None or pointed)
    if speech.order is Order.NUMBER:
        phrases.point_angle(slip)
    if speech.order is Order.THREAD or (threaded and speech.order == ()):
        phrases.taps(slip)
    if speech.order is Order.FIT:
        fit(slip)
    state.losses(slip)
    phrases.asides(slip)
    phrases.flutes(slip)
    double_ended(slip)
    state.wants(slip)
    state.denied(slip)
    state.substance(slip)
    told(slip, speech)
    phrases.remarks(slip)
    span(slip)
