"""What somebody holds: which of the things at a position it is by what is seen, and where to look next."""
