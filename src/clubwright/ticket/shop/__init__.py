"""The shop's settings file: its fields, its findings, and how a ticket takes from it."""
