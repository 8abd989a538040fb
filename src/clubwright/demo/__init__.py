"""An invented workshop: people, parts and readings are made up; any likeness to real ones is chance."""
