"""Cloth, repeat, piece, panel, seam, project: immutable values, named as the project file names them."""
