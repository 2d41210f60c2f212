"""The readings of the seams: the table, its figures and grades."""
