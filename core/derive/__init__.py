"""Net from cut and back, facing, lining, interlining, strips, and what there is to cut and buy."""
