"""Which way it goes through a machine, how much of it, and what a fault does to that."""
