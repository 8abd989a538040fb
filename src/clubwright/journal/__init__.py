"""Facts and their fold: what happened, in order, and the state of the job that follows from it."""
