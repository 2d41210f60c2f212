"""What a placement will look like once hands have laid, cut and sewn it."""
