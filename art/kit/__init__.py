"""A small kit for cut-paper pictures: points in, ``art/<name>.svg`` out.

Standard library only. ``palette`` are the papers, ``curves`` the scissors, ``cutouts`` and
``rows`` the small papers, ``sheet`` the glue; ``creatures`` holds one script a picture.
"""
