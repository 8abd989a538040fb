"""Bends of loft and lie: what is asked, what the metal bears, the plan, and the advice."""
