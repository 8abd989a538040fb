"""What is known of one club: a joint Gaussian over its unknowns, updated by every reading."""
