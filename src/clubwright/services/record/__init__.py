"""A session at the record: who writes, what is there, and how a job is found."""
