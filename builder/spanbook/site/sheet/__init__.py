"""The sheet of a strip-down for one machine, and all that is renewed on it, in tables for scripts."""
