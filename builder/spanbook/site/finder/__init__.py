"""The finder: one box that understands serial numbers, part numbers and words, from plain tables."""
