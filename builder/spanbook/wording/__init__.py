"""Every sentence about an answer: from values to plain text, one for page, terminal, Markdown and JSON.

Below this floor answers are values only; above it nobody makes a sentence."""
