"""What an assembly looks like: drawn from the order of its parts where nobody has a picture."""
