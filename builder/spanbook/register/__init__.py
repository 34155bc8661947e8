"""All records, cross-linked both ways and read-only."""
