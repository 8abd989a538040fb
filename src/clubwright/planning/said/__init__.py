"""What there is to say, as data: phrases with what fills them, actions with their numbers; `clubwright.words` says it."""
