"""The plates of the demonstration: exploded line drawings, made from solid models. See README.md.

Imports go down only: `__main__`, `demonstration`, `plate`, `hiding`, `solids` and `coils`, `view`, `curves`.
"""
