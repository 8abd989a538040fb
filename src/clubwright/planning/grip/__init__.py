"""Layers of tape under a grip, and what it comes out at."""
