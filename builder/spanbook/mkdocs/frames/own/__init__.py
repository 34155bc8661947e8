"""A small theme of our own: a maker's plate, the finder, an index of tabs. MkDocs knows it as `spanbook`."""
