"""`crib completion SHELL`: a script that lets a shell complete commands, kinds and options. It knows them by heart, so
that pressing the key asks nothing of the program and waits for nothing."""

from __future__ import annotations

import os
from typing import Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError

_KEPT = ("bash (keep it in ~/.bash_completion), zsh (in _crib, in a folder of its fpath), fish "
         "(in ~/.config/fish/completions/crib.fish) or powershell (in $PROFILE)")
_CALLED = {"pwsh": "powershell", "power-shell": "powershell"}


def completion(
    ctx: typer.Context,
    shell: Annotated[str | None, typer.Argument(help=f"{_KEPT}; else yours")] = None,
) -> Status:
    """Print what lets a shell complete commands, kinds and options."""
    from crib.cli.completions import SHELLS, script

    asked: Asked = ctx.obj
    name = (shell or os.path.basename(os.environ.get("SHELL", "")) or "bash").lower().removesuffix(".exe")
    name = _CALLED.get(name, name)
    if name not in SHELLS:
        raise CribError("shell", f"{name!r} is no shell that this is known for", name, "one of " + ", ".join(SHELLS))
    text = script(name)
    out.answer(asked, {"shell": name, "script": text}, text.splitlines())
    return Status.ANSWERED
