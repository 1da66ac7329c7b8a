"""What it takes to read a line that was held back again, such as the heading of its table."""

from __future__ import annotations

from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """In plain SQL: batch mode would lose the table's other CHECK constraints."""
    valid = "json_valid(beside)" if op.get_bind().dialect.name == "sqlite" else "(beside)::json IS NOT NULL"
    op.execute("ALTER TABLE held_back ADD COLUMN beside TEXT "
               f"CONSTRAINT ck_held_back_beside_json CHECK (beside IS NULL OR {valid})")


def downgrade() -> None:
    op.execute("ALTER TABLE held_back DROP COLUMN beside")
