"""What the record says of a club that was built, and how it is made again."""
