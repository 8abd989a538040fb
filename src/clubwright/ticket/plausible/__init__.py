"""Whether what a ticket says can be so."""
