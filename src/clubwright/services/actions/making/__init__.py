"""What is done to the club itself: cut, weighted, mixed, glued, gripped, bent, pulled."""
