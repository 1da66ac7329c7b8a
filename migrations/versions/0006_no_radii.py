"""Nobody asks for the radii between which a cutter's teeth lie: their columns and indexes go."""

from __future__ import annotations

import re

from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

RADII = ("least_radius_nm", "greatest_radius_nm")


def upgrade() -> None:
    if op.get_bind().dialect.name == "sqlite":
        _anew()
        return
    op.execute("ALTER TABLE cutter DROP CONSTRAINT ck_cutter_radii")
    for column in RADII:
        op.execute(f"ALTER TABLE cutter DROP COLUMN {column}")


def _anew() -> None:
    """The table written anew: SQLite drops no column that a CHECK names. In its own words, so that every other
    constraint stays, and with its last number, so that none is given twice."""
    bind = op.get_bind()
    as_it_is = bind.exec_driver_sql("SELECT sql FROM sqlite_master WHERE type = 'table' AND name = 'cutter'").scalar()
    indexes = bind.exec_driver_sql("SELECT name, sql FROM sqlite_master WHERE type = 'index' AND tbl_name = 'cutter' "
                                   "AND sql IS NOT NULL").fetchall()
    last = bind.exec_driver_sql("SELECT seq FROM sqlite_sequence WHERE name = 'cutter'").scalar()
    made = re.sub(r'^CREATE TABLE "?cutter"?', "CREATE TABLE cutter_anew", as_it_is)
    made = re.sub(r"\s*CONSTRAINT ck_cutter_radii CHECK \([^)]*\),", "", made)
    for column in RADII:
        made = re.sub(rf"\s*{column} BIGINT,", "", made)
    bind.exec_driver_sql(made)
    rows = bind.exec_driver_sql("PRAGMA table_info(cutter_anew)").fetchall()
    kept = ", ".join(f'"{row[1]}"' for row in rows)
    op.execute(f"INSERT INTO cutter_anew ({kept}) SELECT {kept} FROM cutter")
    op.execute("DROP TABLE cutter")
    op.execute("ALTER TABLE cutter_anew RENAME TO cutter")
    for name, sql in indexes:
        if not name.endswith(RADII):
            op.execute(sql)
    if last is not None:
        op.execute("DELETE FROM sqlite_sequence WHERE name IN ('cutter', 'cutter_anew')")
        op.execute(f"INSERT INTO sqlite_sequence (name, seq) VALUES ('cutter', {int(last)})")


def downgrade() -> None:
    for column in RADII:
        op.execute(f"ALTER TABLE cutter ADD COLUMN {column} BIGINT")
        op.execute(f"CREATE INDEX ix_cutter_{column} ON cutter ({column})")
