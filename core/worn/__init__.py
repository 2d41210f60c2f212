"""The garment as worn: its panels sewn up and hung as a body of revolution, seen from any side."""
