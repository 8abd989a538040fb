"""What a person does at the bench, one function an action."""
