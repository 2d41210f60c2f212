"""Papers for the cutting table: one drawing list in mm, and the pages and tables that are made of it."""
