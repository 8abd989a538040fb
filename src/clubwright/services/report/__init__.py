"""What is told of a job: where each of its numbers comes from."""
