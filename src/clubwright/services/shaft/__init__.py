"""A shaft and its frequency: its curve, its family, its planes, what another trim would do."""
