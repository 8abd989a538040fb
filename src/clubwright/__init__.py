"""Bench software for the golf clubmaker: a club is a belief, advice is computed from it, the record is a journal."""
