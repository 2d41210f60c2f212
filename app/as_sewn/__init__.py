"""What to expect once hands have laid, cut and sewn: the page beside the cloth."""
