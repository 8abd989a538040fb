"""The plan: which steps one club needs, in which order, with their figures."""
