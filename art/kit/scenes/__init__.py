"""One script a scene: the cover, and an ornament for each chapter's opening side.

Each module has ``NAME``, ``DESCRIPTION`` and ``draw()``.
"""
