"""Percent of thread: how much of its full height a thread keeps in a hole of a certain size, and back again."""

from __future__ import annotations

from crib.handbook.threads.base import Thread

FORMING_FACTOR = 0.0068
"""A forming tap's hole lies this share of the pitch under the major diameter for each percent [-].
Machinery's Handbook, cold-form tapping: D - 0.0068 x percent / tpi."""


def percent_of(thread: Thread, hole_mm: float) -> float:
    """The percent of thread that a hole leaves for a cutting tap, by the form's own convention.

    p = 100 (D - d) / (k P); k = 1.299 at 60 degrees, 1.2807 at 55, 1.2 at 47.5

    Parameters: thread; hole d [mm]. Returns: p [percent]. Valid for: cutting taps, straight threads.
    References: Machinery's Handbook, tapping; BS 84; BS 93. Examples: the trade's "75 percent" of a #7 drill in 1/4-20.

    >>> from crib.handbook.threads import read_thread
    >>> round(percent_of(read_thread("1/4-20").thread, 0.2010 * 25.4), 1)
    75.4
    """
    return 100 * (thread.major_mm - hole_mm) / (thread.form.percent_factor * thread.pitch_mm)


def hole_for(thread: Thread, percent: float) -> float:
    """The hole that leaves a percent of thread for a cutting tap.

    d = D - p k P / 100

    Parameters: thread; p [percent]. Returns: d [mm]. References: as `percent_of`.

    >>> from crib.handbook.threads import read_thread
    >>> round(hole_for(read_thread("10-32").thread, 75) / 25.4, 4)
    0.1596
    """
    return thread.major_mm - percent / 100 * thread.form.percent_factor * thread.pitch_mm


def forming_hole(thread: Thread, percent: float = 65.0) -> float:
    """The hole for a forming tap, which moves metal instead of cutting it.

    d = D - 0.0068 p P

    Parameters: thread; p [percent]. Returns: d [mm]. References: Machinery's Handbook, cold-form tapping.

    >>> from crib.handbook.threads import read_thread
    >>> round(forming_hole(read_thread("1/4-20").thread) / 25.4, 4)
    0.2279
    """
    return thread.major_mm - FORMING_FACTOR * percent * thread.pitch_mm


def forming_percent(thread: Thread, hole_mm: float) -> float:
    """The percent of thread that a forming tap raises in a hole; the inverse of `forming_hole`.

    p = (D - d) / (0.0068 P)

    Parameters: thread; d [mm]. Returns: p [percent]. References: Machinery's Handbook, cold-form tapping.

    >>> from crib.handbook.threads import read_thread
    >>> round(forming_percent(read_thread("10-32").thread, 0.1762 * 25.4))
    65
    """
    return (thread.major_mm - hole_mm) / (FORMING_FACTOR * thread.pitch_mm)


def small_end(thread: Thread) -> float:
    """The pitch diameter of a taper pipe thread at the small end of the outside one.

    E0 = D - (0.05 D + 1.1) P

    Parameters: thread, taper pipe. Returns: E0 [mm]. References: ASME B1.20.1.

    >>> from crib.handbook.threads import read_thread
    >>> round(small_end(read_thread("1/8 NPT").thread) / 25.4, 5)
    0.36351
    """
    across, pitch = thread.major_mm / 25.4, thread.pitch_mm / 25.4
    return (across - (0.05 * across + 1.1) * pitch) * 25.4
