"""What to do next, best first."""
