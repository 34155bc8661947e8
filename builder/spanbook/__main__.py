"""`python -m spanbook` is the `spanbook` command."""

from spanbook.cli import main

main(prog_name="spanbook")
