"""What everything stands on: runs of numbers, stamps, years, part numbers, sizes, spellings, pictures."""
