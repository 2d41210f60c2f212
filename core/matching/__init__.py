"""The solver: where every panel lies across the stripes, and how far it turns, so that all seams match best."""
