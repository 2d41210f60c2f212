"""The program's place on the desktop: its menu entry, its kind of file, and the recipe for a build of its own."""
