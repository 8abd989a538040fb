"""What to do next: cut, weight, adhesive, build-up, bends, gates and steps."""
