"""The ticket file: its fields, how it is read, and the prior belief it gives."""
