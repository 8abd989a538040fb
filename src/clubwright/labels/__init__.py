"""The build sheet and the tag label, drawn by Typst."""
