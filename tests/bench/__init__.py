"""Benchmarks, run by hand: `python -m tests.bench.site`. Speed is measured here and nowhere tested."""
