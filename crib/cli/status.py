"""What the program's exit status means."""

from __future__ import annotations


class Status(int):
    """Answered; answered, and the answer is no; not understood or not carried out; stopped from the keyboard."""

    ANSWERED: Status
    NO: Status
    FAILED: Status
    STOPPED: Status


Status.ANSWERED, Status.NO, Status.FAILED, Status.STOPPED = map(Status, (0, 1, 2, 130))
