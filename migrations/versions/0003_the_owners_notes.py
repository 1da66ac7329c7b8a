"""The owner's notes: prices seen, friends' cutters, minutes that jobs took, holes measured."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=False)


def upgrade() -> None:
    valid = "json_valid(about)" if op.get_bind().dialect.name == "sqlite" else "(about)::json IS NOT NULL"
    op.create_table(
        "note",
        sa.Column("id", sa.Integer(), nullable=False),
        _text("at"),
        _text("who"),
        _text("kind"),
        _text("words"),
        _text("about"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_note")),
        sa.CheckConstraint("kind IN ('price', 'lent', 'time', 'hole')", name=op.f("ck_note_kind")),
        sa.CheckConstraint(valid, name=op.f("ck_note_about_json")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_note_kind"), "note", ["kind"])


def downgrade() -> None:
    op.drop_table("note")
