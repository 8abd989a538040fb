"""The index of jobs beside the facts: its tables, how it is written and asked."""
