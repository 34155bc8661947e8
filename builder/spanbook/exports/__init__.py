"""Answers in forms for other programs."""
