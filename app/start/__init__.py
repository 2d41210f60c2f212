"""The start page, recent files and samples."""
