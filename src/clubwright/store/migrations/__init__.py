"""Migrations of the record, run by `clubwright.store.migrate`."""
