"""How problems are told: a module a form."""
