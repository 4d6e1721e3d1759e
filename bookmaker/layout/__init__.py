"""Layout: a side of the book and its paper in, a ``PlacedPage`` out, all in millimetres."""
