"""Paths, arc length, offsetting edge by edge, the panel transform. Arrays of points have shape (n, 2), in mm."""
