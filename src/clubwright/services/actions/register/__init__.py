"""What every bench action takes, writes and completes: data, which page, command line, `/api` and Python look up."""
