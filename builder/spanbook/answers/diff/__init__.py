"""What changes in the answers between two registers."""
