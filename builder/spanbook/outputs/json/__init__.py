"""Answers as JSON, each held to its schema: a module a sort of answer."""
