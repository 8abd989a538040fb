"""One function for each bench action: check, one transaction, one or more facts."""
