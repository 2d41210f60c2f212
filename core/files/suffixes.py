"""What the names of files end with."""

SUFFIX = ".stripewright"
"""A project file."""
DRAWN = (".svg", ".dxf", ".pdf")
"""Drawings that can be brought in."""
