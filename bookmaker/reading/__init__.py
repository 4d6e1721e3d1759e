"""Reading: TOML and CSV files in, a ``Book`` and every problem found in them out."""
