"""What a program calls from Python, and a notebook shows: tickets worked, papers printed, a workshop's record kept."""
