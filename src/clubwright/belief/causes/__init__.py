"""Why readings do not fit: joint hypotheses over all readings of a club, by their posterior probability."""
