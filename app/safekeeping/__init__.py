"""What keeps the work safe: recovery files, the file on disk, and the border that no exception passes unseen."""
