"""The computations: pure, values only, no files and no words."""
