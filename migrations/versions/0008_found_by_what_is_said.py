"""Cutters are found by what is said of them: where a text stands is looked up, not looked for in every row."""

from __future__ import annotations

from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None

COLUMNS = ("marking", "note", "rest")


def upgrade() -> None:
    """In a file only: a server's index takes no long text, and a note may be as long as its owner likes."""
    if op.get_bind().dialect.name == "sqlite":
        for column in COLUMNS:
            op.create_index(f"ix_cutter_{column}", "cutter", [column])


def downgrade() -> None:
    if op.get_bind().dialect.name == "sqlite":
        for column in COLUMNS:
            op.drop_index(f"ix_cutter_{column}", "cutter")
