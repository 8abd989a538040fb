"""The tag on the finished club."""
