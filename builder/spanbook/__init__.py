"""spanbook: collectors' records of old machines, turned into a checked reference site."""
