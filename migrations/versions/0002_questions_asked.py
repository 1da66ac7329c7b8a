"""The questions that were asked."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=False)


def _json_checks(table: str, *columns: str) -> list[sa.CheckConstraint]:
    """Text that must be JSON, in the words of the database at hand."""
    valid = "json_valid({0})" if op.get_bind().dialect.name == "sqlite" else "({0})::json IS NOT NULL"
    return [sa.CheckConstraint(valid.format(column), name=op.f(f"ck_{table}_{column}_json")) for column in columns]


def upgrade() -> None:
    op.create_table(
        "question",
        sa.Column("id", sa.Integer(), nullable=False),
        _text("first_at"),
        _text("at"),
        _text("who"),
        _text("kind"),
        _text("texts"),
        _text("units"),
        sa.Column("times", sa.Integer(), nullable=False),
        _text("answer"),
        _text("plan"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_question")),
        sa.UniqueConstraint("kind", "texts", "units", name=op.f("uq_question_kind_texts_units")),
        sa.CheckConstraint("units IN ('in', 'mm')", name=op.f("ck_question_units")),
        sa.CheckConstraint("times >= 1", name=op.f("ck_question_times")),
        *_json_checks("question", "texts", "plan"),
        sqlite_autoincrement=True,
    )


def downgrade() -> None:
    op.drop_table("question")
