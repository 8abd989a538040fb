"""From a ticket to what is believed before any reading."""
