"""The page of variants: how the project stood, side by side, and what would help."""
