"""One job of the record as it stands: its answer, gates, clocks, and what stands between it and its end."""
