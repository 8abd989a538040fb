"""What a ticket comes to: the club as believed, and what is to be said of it."""
