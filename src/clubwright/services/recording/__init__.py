"""How facts get into the record: tried, judged, written in one transaction, merged."""
