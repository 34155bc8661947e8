"""The machine card: one machine by its number, from one small table for each series."""
