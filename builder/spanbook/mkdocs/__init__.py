"""The only place that knows MkDocs."""
