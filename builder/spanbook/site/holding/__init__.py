"""What somebody holds, told in the page: a table for each position, and the script that adds up."""
