"""The gates of what cannot be undone, and the checks they are made of."""
