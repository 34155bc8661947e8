"""spanbook: collectors' records of old machines, turned into a checked reference site."""

from spanbook.api import OpenRegister, open_register
from spanbook.problems import Problem, Problems

__all__ = ["OpenRegister", "Problem", "Problems", "open_register"]
