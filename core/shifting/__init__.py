"""Moving the stitching line between two panels by a hair, so that their stripes meet better."""
