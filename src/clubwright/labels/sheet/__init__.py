"""The bench sheet and its drawing of the club."""
