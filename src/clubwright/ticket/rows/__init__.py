"""The tables of a ticket file, read into structs."""
