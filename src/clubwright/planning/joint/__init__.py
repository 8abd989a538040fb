"""The glued joint: fit, adhesive, cure and strength."""
