"""Every sentence that a reader gets, made from the answers' values."""
