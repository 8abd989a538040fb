"""Pictures for the page: the strip, the shaft, the line of a set."""
