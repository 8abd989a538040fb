"""The virtual bench: simulated clubs with true parts nobody sees, and three ways of working them."""
