"""An order in words, read word by word."""
