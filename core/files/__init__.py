"""The project file, and exchange formats: reading and writing."""
