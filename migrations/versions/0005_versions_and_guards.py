"""A cutter's row counts how often it was changed; the history is guarded on a server too."""

from __future__ import annotations

from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """In plain SQL: batch mode would lose the table's other CHECK constraints."""
    op.execute("ALTER TABLE cutter ADD COLUMN version INTEGER DEFAULT 1 NOT NULL "
               "CONSTRAINT ck_cutter_version CHECK (version >= 1)")
    if op.get_bind().dialect.name == "postgresql":
        op.execute("CREATE FUNCTION change_is_kept() RETURNS trigger LANGUAGE plpgsql AS "
                   "$$ BEGIN RAISE EXCEPTION 'what was done stays written down'; END $$")
        for deed, each in (("UPDATE", "ROW"), ("DELETE", "ROW"), ("TRUNCATE", "STATEMENT")):
            op.execute(f"CREATE TRIGGER change_no_{deed.lower()} BEFORE {deed} ON change "
                       f"FOR EACH {each} EXECUTE FUNCTION change_is_kept()")


def downgrade() -> None:
    if op.get_bind().dialect.name == "postgresql":
        for deed in ("update", "delete", "truncate"):
            op.execute(f"DROP TRIGGER change_no_{deed} ON change")
        op.execute("DROP FUNCTION change_is_kept()")
    op.execute("ALTER TABLE cutter DROP COLUMN version")
