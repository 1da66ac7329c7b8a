"""How migrations are run: by the program, through `crib.store.migrate`."""

from __future__ import annotations

from typing import Any

from alembic import context
from sqlalchemy import Connection, MetaData, create_engine, event, pool, text

from crib.store.columns import APPLICATION_ID

config = context.config
url = config.attributes.get("url") or context.get_x_argument(as_dictionary=True).get("url") or "sqlite:///crib.db"


def tables() -> MetaData | None:
    """The tables as the program has them; upgrading doesn't need them, and importing them takes half a second."""
    if config.attributes.get("upgrade_only"):
        return None
    from crib.store.models import metadata

    return metadata


def stamp(*, ctx: Any, heads: set[str], **_: Any) -> None:
    """Note the schema's number in the file's own header, where a look costs nothing."""
    if ctx.connection.dialect.name == "sqlite":
        ctx.connection.exec_driver_sql(f"PRAGMA user_version = {max((int(head) for head in heads), default=0)}")
        ctx.connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")


def run(connection: Connection) -> None:
    """Each migration whole or not at all."""
    context.configure(
        connection=connection,
        target_metadata=tables(),
        render_as_batch=True,
        transaction_per_migration=True,
        on_version_apply=stamp,
        version_table="schema_version",
    )
    with context.begin_transaction():
        context.run_migrations()
    if connection.dialect.name == "sqlite":
        dangling = connection.execute(text("PRAGMA foreign_key_check")).fetchall()
        if dangling:
            raise RuntimeError(f"rows that point nowhere: {dangling}")


engine = create_engine(url, poolclass=pool.NullPool)
if engine.dialect.name == "sqlite":

    @event.listens_for(engine, "connect")
    def _plain(dbapi: Any, _record: Any) -> None:
        """Leave transactions to us, and let batch mode drop and recreate tables."""
        dbapi.isolation_level = None
        dbapi.execute("PRAGMA foreign_keys = OFF")

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        connection.exec_driver_sql("BEGIN IMMEDIATE")


with engine.connect() as connection:
    run(connection)
engine.dispose()
