"""Tickets taken, changed and numbered, and the club they are for."""
