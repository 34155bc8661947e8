"""Which way it goes through each machine, in tables for a script."""
