"""Gauges on a cable: their lines read strictly, so that a torn or a moving figure never passes for a reading."""
