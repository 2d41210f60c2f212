"""The cloth, measured: its repeat from a picture, its repeat and width by ruler, how far it is from straight."""
