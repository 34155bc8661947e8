"""What means harm or comes of mishaps, all of our own making, each with what must come of it."""
