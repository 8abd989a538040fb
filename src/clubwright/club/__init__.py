"""Club mechanics: parts along one axis, stages of the build, and one module for each quantity a clubmaker reads."""
