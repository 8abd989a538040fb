"""Routes, one module for each page."""
