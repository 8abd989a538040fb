"""Why a number is what it is."""
