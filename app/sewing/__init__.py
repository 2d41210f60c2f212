"""Sewing edges together in the workbench: seams made, changed, trued and taken out."""
