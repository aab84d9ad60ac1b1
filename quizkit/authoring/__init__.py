"""From what a trainer types to a pack: reading, diagnostics, parsing, checks and proof."""
