"""The frozen model of compiled content, and what can be done with it without any Markdown."""
