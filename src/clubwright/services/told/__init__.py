"""The shapes of what programs are told, and the numbers of their schemas."""
