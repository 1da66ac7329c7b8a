"""What this program gives no way for: parts whose failure hurts people, and that a standard and a competent person
answer for. When in doubt it refers; a word that is denied ("no lifting") still refers."""

from __future__ import annotations

from functools import cache

TEXT = "the governing standard and a competent person decide; this sheet gives no way"
NO_USE = "nothing that lifts, carries or guards people, steers, brakes or holds pressure: no use was given"
"""What is taken for granted of a part of which neither use nor mate was said."""


@cache
def refer(use: str | None, *words: str | None) -> str | None:
    """Why no plan is given for a part of this use, or None where a plan may be given.

    `words` is whatever else was said about the part: its name, what it mates with, a note. It goes by what the words
    mean together: forms and plurals, words written apart, near misspellings and other orders count the same.

    Parameters: use, words [-]. Returns: the text to show, or None. References: common practice, no source.

    >>> refer("lifting eye")
    'lifting gear: the governing standard and a competent person decide; this sheet gives no way'
    >>> refer("cover"), refer("slide", "side-lay of a hand proof press"), refer("load"), refer(None)
    (None, None, None, None)
    """
    text = " ; ".join(each for each in (use, *words) if each).replace("_", " ")
    if not text.strip():
        return None
    from crib.safety.referral.reading import read
    from crib.safety.referral.spelling import spelt
    from crib.safety.referral.topics import TOPICS

    said = spelt(read(text))
    topic = next((topic.name for topic in TOPICS if topic.is_in(said)), None)
    return None if topic is None else f"{topic}: {TEXT}"
