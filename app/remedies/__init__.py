"""What would close a seam, shown before anything is changed: easing, and a shift of the stitching line."""
