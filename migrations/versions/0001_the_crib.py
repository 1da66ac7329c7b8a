"""The crib: cutters, settings, changes and lines held back."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

LENGTHS = (
    "diameter", "nominal", "face", "neck", "neck_fillet", "reach", "shank", "length_of_cut", "overall_length",
    "corner_radius", "radius", "tip", "bore", "pilot", "min_hole", "least_radius", "greatest_radius",
)
INDEXED = ("kind", "drawer", "thread", "diameter_nm", "shank_nm", "least_radius_nm", "greatest_radius_nm")


def _text(name: str, nullable: bool = True) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=nullable)


def _json_checks(table: str, *columns: str) -> list[sa.CheckConstraint]:
    """Text that must be JSON, in the words of the database at hand."""
    valid = "json_valid({0})" if op.get_bind().dialect.name == "sqlite" else "({0})::json IS NOT NULL"
    valid = "{0} IS NULL OR " + valid
    return [sa.CheckConstraint(valid.format(column), name=op.f(f"ck_{table}_{column}_json")) for column in columns]


def upgrade() -> None:
    op.create_table(
        "cutter",
        sa.Column("id", sa.Integer(), nullable=False),
        _text("kind", nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        _text("drawer"),
        _text("condition", nullable=False),
        _text("material", nullable=False),
        _text("thread"),
        _text("marking"),
        _text("note"),
        *(sa.Column(f"{length}_nm", sa.BigInteger(), nullable=True) for length in LENGTHS),
        _text("came_from"),
        _text("typed", nullable=False),
        _text("rest", nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_cutter")),
        sa.CheckConstraint("length(kind) > 0", name=op.f("ck_cutter_kind")),
        sa.CheckConstraint('"count" >= 0', name=op.f("ck_cutter_count")),
        sa.CheckConstraint("diameter_nm > 0", name=op.f("ck_cutter_diameter")),
        sa.CheckConstraint("nominal_nm > 0", name=op.f("ck_cutter_nominal")),
        sa.CheckConstraint("least_radius_nm <= greatest_radius_nm", name=op.f("ck_cutter_radii")),
        sa.CheckConstraint(
            "condition IN ('sharp', 'used', 'dull', 'chipped', 'burnt', 'bent', 'unknown')",
            name=op.f("ck_cutter_condition"),
        ),
        sa.CheckConstraint(
            "material IN ('hss', 'cobalt', 'carbide', 'carbide-tipped', 'carbon-steel', 'unknown')",
            name=op.f("ck_cutter_material"),
        ),
        sa.CheckConstraint("came_from IN ('gift', 'purchase', 'made', 'found')", name=op.f("ck_cutter_came_from")),
        *_json_checks("cutter", "typed", "rest"),
        sqlite_autoincrement=True,
    )
    for column in INDEXED:
        op.create_index(op.f(f"ix_cutter_{column}"), "cutter", [column])
    op.create_table(
        "setting",
        _text("name", nullable=False),
        _text("value", nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_setting")),
        *_json_checks("setting", "value"),
    )
    op.create_table(
        "change",
        sa.Column("id", sa.Integer(), nullable=False),
        _text("at", nullable=False),
        _text("who", nullable=False),
        _text("what", nullable=False),
        _text("subject", nullable=False),
        _text("before"),
        _text("after"),
        sa.Column("undoes", sa.Integer(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_change")),
        sa.ForeignKeyConstraint(["undoes"], ["change.id"], name=op.f("fk_change_undoes_change")),
        *_json_checks("change", "before", "after"),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_change_subject"), "change", ["subject"])
    if op.get_bind().dialect.name == "sqlite":
        for deed in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER change_no_{deed.lower()} BEFORE {deed} ON change "
                "BEGIN SELECT RAISE(ABORT, 'what was done stays written down'); END"
            )
    op.create_table(
        "held_back",
        sa.Column("id", sa.Integer(), nullable=False),
        _text("at", nullable=False),
        _text("file"),
        sa.Column("line", sa.Integer(), nullable=False),
        _text("text", nullable=False),
        _text("why", nullable=False),
        _text("help", nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_held_back")),
        sa.CheckConstraint("line >= 1", name=op.f("ck_held_back_line")),
        sqlite_autoincrement=True,
    )


def downgrade() -> None:
    for table in ("held_back", "change", "setting", "cutter"):
        op.drop_table(table)
