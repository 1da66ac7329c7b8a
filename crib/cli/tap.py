"""`crib tap`: whether tap and drill belong together, before the part is spoilt."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError

_FORMS = ("cutting", "forming")


def tap(
    ctx: typer.Context,
    thread: Annotated[list[str] | None, typer.Argument(help="The thread: 10-32, quarter twenty, M6x1, 0BA, 3/8 whit",
                                                       metavar="THREAD")] = None,
    depth: Annotated[str | None, typer.Option(help="Depth of full thread; with --through, the thickness")] = None,
    through: Annotated[bool, typer.Option("--through", help="The hole goes through")] = False,
    below: Annotated[str | None, typer.Option(help="Metal under the full thread")] = None,
    class_: Annotated[str | None, typer.Option("--class", help="2B, 6H, or none", metavar="CLASS")] = None,
    material: Annotated[str, typer.Option(help="What it is cut in: grey iron, 1018, 304 ...")] = "",
    drill: Annotated[str | None, typer.Option(help="The drill in hand, to be checked", metavar="SIZE")] = None,
    form: Annotated[str | None, typer.Option(help="The tap in hand: cutting or forming")] = None,
    use: Annotated[str | None, typer.Option(help="What the part is for")] = None,
    mating: Annotated[str | None, typer.Option(help="What goes in it")] = None,
    power: Annotated[bool, typer.Option("--power", help="Tapped under power; else by hand")] = False,
    check_all: Annotated[bool, typer.Option("--check-all", help="Every tap against every drill")] = False,
) -> Status:
    """Taps and drills that you own for a thread, best first, with the hole each makes."""
    asked: Asked = ctx.obj
    words = " ".join(thread or [])
    if bool(words) == check_all:
        raise CribError("usage", "a thread and --check-all don't go together" if words else "no thread is given", words,
                        "crib tap 10-32, or crib tap --check-all")
    if check_all:
        return _check_all(asked, material, class_)
    if form is not None and form not in _FORMS:
        raise CribError("choice", f"--form {form!r} is not known", form, "cutting or forming")
    if through and depth is None:
        raise CribError("usage", "--through needs the thickness", "--through", "--depth THICKNESS --through")
    return _one(asked, words, {"depth": depth, "below": below, "drill": drill},
                {"class_name": class_, "material": material, "through": through, "form": form, "use": use,
                 "mating": mating, "power": power})


def _one(asked: Asked, words: str, lengths: dict[str, str | None], said: dict[str, Any]) -> Status:
    """One thread, answered from the crib."""
    from dataclasses import replace

    from crib.handbook.threads import read_thread
    from crib.store import open_crib
    from crib.tapping.advise import advise_tap
    from crib.tapping.shape import Asking

    reading = read_thread(words)
    with open_crib(asked.crib, units=asked.units) as crib:
        shop, cutters, units = crib.shop(), crib.cutters(), asked.units or crib.units
    if (lengths["drill"] or "").strip().isdigit() and units == "in":
        raise CribError("drill", f"--drill {lengths['drill']} could be a number drill or whole inches",
                        lengths["drill"] or "", f"#{lengths['drill']}, {lengths['drill']}mm, or a fraction")
    read: dict[str, Any] = {f"{name}_mm": _length(text, units, name) for name, text in lengths.items()}
    advice = advise_tap(Asking(reading, **read, **said), cutters, replace(shop, units=units))
    if asked.json:
        from crib.render.tap_json import tap_json

        out.answer(asked, tap_json(advice, units), ())
    else:
        from crib.pages.tap_page import tap_page

        out.answer(asked, None, out.shown(tap_page(advice), units))
    return Status.NO if advice.answer in ("cannot", "refer", "measure first") else Status.ANSWERED


def _check_all(asked: Asked, material: str, class_name: str | None) -> Status:
    from crib.store import open_crib
    from crib.tapping.check_all import check_all

    with open_crib(asked.crib, units=asked.units) as crib:
        shop, cutters, units = crib.shop(), crib.cutters(), asked.units or crib.units
    found = check_all(cutters, shop, material, class_name)
    if asked.json:
        from crib.render.tap_json import checked_json

        out.answer(asked, checked_json(found, units), ())
    else:
        from crib.pages.tap_page import checked_page

        out.answer(asked, None, out.shown(checked_page(found), units))
    return Status.ANSWERED if found and all(one.drills for one in found) else Status.NO


def _length(text: str | None, units: str, what: str) -> float | None:
    if text is None:
        return None
    from crib.units import read

    return read(text, units, what).mm
