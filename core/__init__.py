"""The whole of the thinking: geometry, model, seams, matching, lay, files and papers. Knows no screen."""
