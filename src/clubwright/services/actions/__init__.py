"""Bench actions: what each takes, asks for and completes, said once for page, command line, `/api` and Python."""
