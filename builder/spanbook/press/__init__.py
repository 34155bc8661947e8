"""A site from its register onto the disk, in shares that any executor makes."""
