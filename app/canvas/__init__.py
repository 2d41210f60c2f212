"""The canvas: the cloth to scale, the panels on it, and the hands that move them."""
