"""What a fact must say, and what may be recorded of a club as it is: asked before anything is written."""
