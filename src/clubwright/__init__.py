"""Bench software for the golf clubmaker: a club is a belief, advice is computed from it, and the record is a journal of facts."""
