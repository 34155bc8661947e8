"""spanbook: collectors' records of old machines, turned into a checked reference site."""

from spanbook.faces.api import OpenRegister, open_register
from spanbook.reading.problems import Problem, Problems

__all__ = ["OpenRegister", "Problem", "Problems", "open_register"]
