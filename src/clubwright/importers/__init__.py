"""Files from outside, read into the words the core understands."""
