"""Where things lie: a place lies in another where its name goes on behind it: B2-3 and `B2, slot 4` are in B2."""

from __future__ import annotations

_BETWEEN = "-/, .:"
"""What can stand behind a place's name where a smaller place follows."""


def is_in(drawer: str | None, place: str) -> bool:
    """Whether something that lies in `drawer` lies in `place`. `drawer B2` and `B2` are the same.

    >>> is_in("B2-3", "drawer b2"), is_in("B21", "B2"), is_in("cabinet 1, B2", "cabinet 1"), is_in("B2", "B2")
    (True, False, True, True)
    """
    if drawer is None:
        return False
    here, there = bare(drawer), bare(place)
    return here == there or (here.startswith(there) and here[len(there)] in _BETWEEN)


def bare(place: str) -> str:
    """A place's name as it is compared.

    >>> bare(" Drawer  B2")
    'b2'
    """
    return " ".join(place.lower().split()).removeprefix("drawer ")


def whole(place: str) -> str:
    """The drawer that a smaller place is in: the first piece of its name, the whole of one in words.

    >>> whole("B2-3"), whole("top tray, third from left"), whole("C12/4")
    ('B2', 'top tray', 'C12')
    """
    if "," in place:
        return place.split(",")[0].strip()
    head = place.strip().split("-")[0].split("/")[0]
    return head if any(sign.isdigit() for sign in head) else place.strip()
