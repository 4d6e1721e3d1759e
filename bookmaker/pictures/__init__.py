"""Pictures: art files in, ``Picture`` out: upright size, trim box, safe bytes, digest."""
