"""What to order for a part number on one machine, where it goes by the machine, in tables for a script."""
