"""From facts to the state of a job: pure, one fact at a time."""
