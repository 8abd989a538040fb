"""The interface for programs."""
