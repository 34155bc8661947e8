"""What a reader gets: each view a module with plain data, a template and its style beside it."""
