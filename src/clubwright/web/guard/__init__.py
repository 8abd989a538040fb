"""Who may come in, and what a request may be."""
