"""The table of facts, and the triggers that let it only grow."""

# ruff: noqa: S608 - the statements are put together from constants of this file

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects.postgresql import JSONB

revision = "0001"
down_revision = None

NO_CHANGE = "the record is append-only: write a new fact that undoes the old one"
NO_GAP = "the record has no gaps: a fact follows on the last one of its site"
GENESIS = "0" * 64


def upgrade() -> None:
    op.create_table(
        "fact",
        sa.Column("site", sa.Text(), nullable=False),
        sa.Column("sequence", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("job", sa.Text(), nullable=False),
        sa.Column("what", sa.Text().with_variant(JSONB(), "postgresql"), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("previous_hash", sa.Text(), nullable=False),
        sa.Column("hash", sa.Text(), nullable=False),
        sa.CheckConstraint("sequence > 0", name=op.f("ck_fact_sequence_from_one")),
        sa.PrimaryKeyConstraint("site", "sequence", name=op.f("pk_fact")),
        sa.UniqueConstraint("key", name=op.f("uq_fact_key")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_fact_job"), "fact", ["job"])
    for statement in POSTGRESQL if op.get_bind().dialect.name == "postgresql" else SQLITE:
        op.execute(sa.text(statement.replace(":", r"\:")))


def downgrade() -> None:
    raise NotImplementedError("a record is not taken back to an older form")


# REPLACE deletes the row in its way, and by default without asking the trigger on DELETE: hence the look at the key
SQLITE = (
    f"CREATE TRIGGER fact_no_update BEFORE UPDATE ON fact BEGIN SELECT RAISE(ABORT, '{NO_CHANGE}'); END",
    f"CREATE TRIGGER fact_no_delete BEFORE DELETE ON fact BEGIN SELECT RAISE(ABORT, '{NO_CHANGE}'); END",
    f"""
    CREATE TRIGGER fact_no_gap BEFORE INSERT ON fact
    WHEN NEW.sequence <> 1 + (SELECT coalesce(max(sequence), 0) FROM fact WHERE site = NEW.site)
      OR NEW.previous_hash <> coalesce(
           (SELECT hash FROM fact WHERE site = NEW.site AND sequence = NEW.sequence - 1), '{GENESIS}')
      OR EXISTS (SELECT 1 FROM fact WHERE key = NEW.key)
    BEGIN SELECT RAISE(ABORT, '{NO_GAP}'); END
    """,
)

POSTGRESQL = (
    f"""
    CREATE FUNCTION fact_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN RAISE EXCEPTION '{NO_CHANGE}'; END $$
    """,
    "CREATE TRIGGER fact_no_change BEFORE UPDATE OR DELETE OR TRUNCATE ON fact EXECUTE FUNCTION fact_refuse()",
    f"""
    CREATE FUNCTION fact_follows() RETURNS trigger LANGUAGE plpgsql AS $$
    DECLARE
      last_sequence integer;
      last_hash text;
    BEGIN
      SELECT sequence, hash INTO last_sequence, last_hash
        FROM fact WHERE site = NEW.site ORDER BY sequence DESC LIMIT 1;
      IF NEW.sequence <> 1 + coalesce(last_sequence, 0) OR NEW.previous_hash <> coalesce(last_hash, '{GENESIS}') THEN
        RAISE EXCEPTION '{NO_GAP}';
      END IF;
      RETURN NEW;
    END $$
    """,
    "CREATE TRIGGER fact_no_gap BEFORE INSERT ON fact FOR EACH ROW EXECUTE FUNCTION fact_follows()",
)
