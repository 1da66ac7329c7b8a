"""What the program's exit status means."""

from __future__ import annotations

from enum import IntEnum


class Status(IntEnum):
    """Answered; answered, and the answer is no; not understood or not carried out; stopped from the keyboard."""

    ANSWERED = 0
    NO = 1
    FAILED = 2
    STOPPED = 130
