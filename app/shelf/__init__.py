"""The shelf of cloths kept for other projects, on the screen."""
