"""What is known of an order, a club and the bench it is on, as typed structs: made by the importers in `ticket`."""
