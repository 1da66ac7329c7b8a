"""The parts that are to be made, each as its owner's text."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=False)


def upgrade() -> None:
    op.create_table(
        "part",
        sa.Column("id", sa.Integer(), nullable=False),
        _text("name"),
        _text("at"),
        _text("who"),
        _text("text"),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_part")),
        sa.UniqueConstraint("name", name=op.f("uq_part_name")),
        sa.CheckConstraint("length(name) > 0", name=op.f("ck_part_name")),
        sa.CheckConstraint("version >= 1", name=op.f("ck_part_version")),
        sqlite_autoincrement=True,
    )


def downgrade() -> None:
    op.drop_table("part")
