"""Every table and key of a ticket file and of the shop's settings: one register, its schema and its page."""
