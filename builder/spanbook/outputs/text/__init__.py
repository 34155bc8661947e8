"""Answers as text for the terminal, and for the page of a proposal: a module a sort of answer."""
