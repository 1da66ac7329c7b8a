"""What a command is at, on standard error; nothing where nobody looks on, and nothing of what is short. What watches
is imported where somebody looks on."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator, Sequence, Sized
from contextlib import contextmanager

from crib.cli import out
from crib.light.hints import TYPE_CHECKING, TypeVar
from crib.light.records import dataclass
from crib.render.text import plain

if TYPE_CHECKING:
    from threading import Event
    from types import FrameType

Item = TypeVar("Item")
_LONG = 2000
_PATIENCE, _AGAIN = 0.5, 0.2
"""How long nobody wonders what a command is at, and how often that is said anew [s]."""


def ticking(items: Iterable[Item], what: str, long: int = _LONG) -> Iterator[Item]:
    """The same items one by one, with a bar where standard error is a terminal and there are many of them: `long`."""
    total = len(items) if isinstance(items, Sized) else None
    watched = sys.stderr is not None and sys.stderr.isatty() and (total is None or total >= long)
    if not watched or total is None:
        yield from items
        return
    from rich.console import Console
    from rich.progress import track

    yield from track(items, description=what, total=total, console=Console(stderr=True), transient=True)


def trying(items: Sequence[Item], says: Callable[[Item], str], is_wanted: bool = True) -> Iterator[Item]:
    """The same items one by one, with a word for the one that is being tried. Ctrl-C ends them after that one, so that
    what was found until then is told; a second one ends everything."""
    now = [""]
    with stoppable() as stop, telling(lambda: now[0] + stop.says, is_wanted):
        for number, item in enumerate(items, start=1):
            if stop.is_asked:
                out.note(f"crib: stopped: {number - 1} of {len(items)} were tried; there may be a better answer")
                return
            now[0] = f"trying {says(item)}, {number} of {len(items)}"
            yield item


@dataclass
class Stop:
    """Whether Ctrl-C was pressed."""

    is_asked: bool = False

    @property
    def says(self) -> str:
        """What is said of it."""
        return "; stopping after this one, Ctrl-C again drops it" if self.is_asked else ""


@contextmanager
def stoppable() -> Iterator[Stop]:
    """Ctrl-C is noted, and only a second one interrupts; where it is ignored, as behind `nohup`, it stays so."""
    import signal

    stop = Stop()

    def asked(number: int, frame: FrameType | None) -> None:
        if stop.is_asked:
            raise KeyboardInterrupt
        stop.is_asked = True

    if not _is_main_thread() or signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        yield stop
        return
    before = signal.signal(signal.SIGINT, asked)
    try:
        yield stop
    finally:
        signal.signal(signal.SIGINT, before)


def _is_main_thread() -> bool:
    """Whether signals come here: where nobody has loaded threads there is no other."""
    threading = sys.modules.get("threading")
    return threading is None or threading.current_thread() is threading.main_thread()


@contextmanager
def telling(says: Callable[[], str], is_wanted: bool) -> Iterator[None]:
    """A line on standard error that says what goes on, once it has gone on for half a second; taken away at the end.
    None where standard error is no terminal, or where it isn't wanted."""
    if not is_wanted or sys.stderr is None or not sys.stderr.isatty():
        yield
        return
    from threading import Event, Thread

    done = Event()
    thread = Thread(target=_tell, args=(says, done), daemon=True)
    thread.start()
    try:
        yield
    finally:
        done.set()
        thread.join()


def _tell(says: Callable[[], str], done: Event) -> None:
    if done.wait(_PATIENCE):
        return
    from rich.console import Console
    from rich.text import Text

    def line() -> Text:
        return Text(plain(says()), no_wrap=True, overflow="ellipsis")

    with Console(stderr=True).status(line(), spinner="line") as status:
        while not done.wait(_AGAIN):
            status.update(line())
