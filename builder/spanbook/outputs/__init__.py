"""Answers and problems for other programs and for the terminal."""
