"""The record on disk: SQLAlchemy tables, append-only, hash-chained, on SQLite or PostgreSQL."""
