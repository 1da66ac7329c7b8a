"""Bringing a database up to the schema of this program. Imported only where that is needed: it costs half a second."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.util import CommandError
from sqlalchemy.engine import URL
from sqlalchemy.exc import SQLAlchemyError

from crib.findings.errors import CribError


def migrations_dir() -> Path:
    """The folder of migrations: inside the package where it was installed from a wheel, else beside it."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "_migrations"
    return inside if inside.is_dir() else package.parent / "migrations"


def config(url: str, scripts: Path | None = None) -> Config:
    """Alembic's settings for the database at a URL."""
    settings = Config()
    settings.set_main_option("script_location", str(scripts or migrations_dir()).replace("%", "%%"))
    settings.set_main_option("path_separator", "os")
    settings.attributes["url"] = url
    return settings


def upgrade(where: Path | str, scripts: Path | None = None) -> None:
    """Upgrade the file or the URL to the newest schema. Raises `CribError` where that can't be done."""
    url = where if isinstance(where, str) else sqlite_url(where)
    settings = config(url, scripts)
    settings.attributes["upgrade_only"] = True
    try:
        command.upgrade(settings, "head")
    except (SQLAlchemyError, CommandError) as error:
        cause = getattr(error, "orig", None) or error
        shown = where if isinstance(where, Path) else "the shared crib"
        raise CribError("upgrade", f"{shown} can't be brought up to date: {cause}", str(shown),
                        "nothing was changed; look at what else uses it and try again") from error


def sqlite_url(path: Path) -> str:
    """The URL of a file, whatever signs its name holds."""
    return URL.create("sqlite", database=str(path.absolute())).render_as_string(hide_password=False)
