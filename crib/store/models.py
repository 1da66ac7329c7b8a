"""The tables, for the migrations to be written from and checked against.

Lengths are whole nanometres; what was typed for them stands in `typed`. JSON is kept as text, so that one statement
serves every database. Reading and writing rows goes by `crib.store.columns`.
"""

from sqlalchemy import BigInteger, CheckConstraint, MetaData, Text, UniqueConstraint
from sqlmodel import Field, SQLModel

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}
metadata = MetaData(naming_convention=NAMES)

CONDITION = "condition IN ('sharp', 'used', 'dull', 'chipped', 'burnt', 'bent', 'unknown')"
MATERIAL = "material IN ('hss', 'cobalt', 'carbide', 'carbide-tipped', 'carbon-steel', 'unknown')"
CAME_FROM = "came_from IN ('gift', 'purchase', 'made', 'found')"


class Table(SQLModel):
    """What the tables share."""

    metadata = metadata


class CutterRow(Table, table=True):
    """One cutter that is owned."""

    __tablename__ = "cutter"
    __table_args__ = (
        CheckConstraint("length(kind) > 0", name="kind"),
        CheckConstraint('"count" >= 0', name="count"),
        CheckConstraint("diameter_nm > 0", name="diameter"),
        CheckConstraint("nominal_nm > 0", name="nominal"),
        CheckConstraint(CONDITION, name="condition"),
        CheckConstraint(MATERIAL, name="material"),
        CheckConstraint(CAME_FROM, name="came_from"),
        CheckConstraint("version >= 1", name="version"),
        {"sqlite_autoincrement": True},
    )

    id: int | None = Field(default=None, primary_key=True)
    kind: str = Field(sa_type=Text, index=True)
    count: int = 1
    drawer: str | None = Field(default=None, sa_type=Text, index=True)
    condition: str = Field(default="unknown", sa_type=Text)
    material: str = Field(default="unknown", sa_type=Text)
    thread: str | None = Field(default=None, sa_type=Text, index=True)
    marking: str | None = Field(default=None, sa_type=Text, index=True)
    note: str | None = Field(default=None, sa_type=Text, index=True)
    diameter_nm: int | None = Field(default=None, sa_type=BigInteger, index=True)
    nominal_nm: int | None = Field(default=None, sa_type=BigInteger)
    face_nm: int | None = Field(default=None, sa_type=BigInteger)
    neck_nm: int | None = Field(default=None, sa_type=BigInteger)
    neck_fillet_nm: int | None = Field(default=None, sa_type=BigInteger)
    reach_nm: int | None = Field(default=None, sa_type=BigInteger)
    shank_nm: int | None = Field(default=None, sa_type=BigInteger, index=True)
    length_of_cut_nm: int | None = Field(default=None, sa_type=BigInteger)
    overall_length_nm: int | None = Field(default=None, sa_type=BigInteger)
    corner_radius_nm: int | None = Field(default=None, sa_type=BigInteger)
    radius_nm: int | None = Field(default=None, sa_type=BigInteger)
    tip_nm: int | None = Field(default=None, sa_type=BigInteger)
    bore_nm: int | None = Field(default=None, sa_type=BigInteger)
    pilot_nm: int | None = Field(default=None, sa_type=BigInteger)
    min_hole_nm: int | None = Field(default=None, sa_type=BigInteger)
    came_from: str | None = Field(default=None, sa_type=Text)
    typed: str = Field(default="{}", sa_type=Text)
    rest: str = Field(default="{}", sa_type=Text, index=True)
    version: int = Field(default=1, sa_column_kwargs={"server_default": "1"})


class SettingRow(Table, table=True):
    """One of the shop's settings that isn't left at its default; `value` is JSON."""

    __tablename__ = "setting"

    name: str = Field(primary_key=True, sa_type=Text)
    value: str = Field(sa_type=Text)


class ChangeRow(Table, table=True):
    """What was done to the crib, when and by whom. Rows are only ever added; undoing one is another."""

    __tablename__ = "change"
    __table_args__ = ({"sqlite_autoincrement": True},)

    id: int | None = Field(default=None, primary_key=True)
    at: str = Field(sa_type=Text)
    who: str = Field(sa_type=Text)
    what: str = Field(sa_type=Text)
    subject: str = Field(sa_type=Text, index=True)
    before: str | None = Field(default=None, sa_type=Text)
    after: str | None = Field(default=None, sa_type=Text)
    undoes: int | None = Field(default=None, foreign_key="change.id")


class HeldBackRow(Table, table=True):
    """A line that couldn't be taken in, as it was."""

    __tablename__ = "held_back"
    __table_args__ = (CheckConstraint("line >= 1", name="line"), {"sqlite_autoincrement": True})

    id: int | None = Field(default=None, primary_key=True)
    at: str = Field(sa_type=Text)
    file: str | None = Field(default=None, sa_type=Text)
    line: int
    text: str = Field(sa_type=Text)
    why: str = Field(sa_type=Text)
    help: str = Field(sa_type=Text)
    beside: str | None = Field(default=None, sa_type=Text)


class QuestionRow(Table, table=True):
    """A question that was asked; asked again it is the same row. `texts` and `plan` are JSON."""

    __tablename__ = "question"
    __table_args__ = (
        UniqueConstraint("kind", "texts", "units"),
        CheckConstraint("units IN ('in', 'mm')", name="units"),
        CheckConstraint("times >= 1", name="times"),
        {"sqlite_autoincrement": True},
    )

    id: int | None = Field(default=None, primary_key=True)
    first_at: str = Field(sa_type=Text)
    at: str = Field(sa_type=Text)
    who: str = Field(sa_type=Text)
    kind: str = Field(sa_type=Text)
    texts: str = Field(sa_type=Text)
    units: str = Field(sa_type=Text)
    times: int = 1
    answer: str = Field(sa_type=Text)
    plan: str = Field(default="{}", sa_type=Text)


class NoteRow(Table, table=True):
    """Something that the owner noted: a price seen, a friend's cutter, minutes that a job took, a hole measured.
    `words` are the owner's; `about` is JSON."""

    __tablename__ = "note"
    __table_args__ = (
        CheckConstraint("kind IN ('price', 'lent', 'time', 'hole')", name="kind"),
        {"sqlite_autoincrement": True},
    )

    id: int | None = Field(default=None, primary_key=True)
    at: str = Field(sa_type=Text)
    who: str = Field(sa_type=Text)
    kind: str = Field(sa_type=Text, index=True)
    words: str = Field(sa_type=Text)
    about: str = Field(sa_type=Text)


class PartRow(Table, table=True):
    """A part that is to be made, as its owner's text; `version` counts how often it was written."""

    __tablename__ = "part"
    __table_args__ = (
        UniqueConstraint("name"),
        CheckConstraint("length(name) > 0", name="name"),
        CheckConstraint("version >= 1", name="version"),
        {"sqlite_autoincrement": True},
    )

    id: int | None = Field(default=None, primary_key=True)
    name: str = Field(sa_type=Text)
    at: str = Field(sa_type=Text)
    who: str = Field(sa_type=Text)
    text: str = Field(sa_type=Text)
    version: int = Field(default=1, sa_column_kwargs={"server_default": "1"})
