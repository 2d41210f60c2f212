"""Patterns from measurements: gored skirts and the gores of canopies, as projects whose seams are already joined up."""
