"""Reading: TOML and CSV files in, a ``Book`` or a ``Classroom`` and every problem in them out.

``read_table`` reads what a spreadsheet wrote, for stages that keep tables of their own.
"""

from bookmaker.reading.classroom import ClassReading, read_class
from bookmaker.reading.csv import (
    Row,
    Table,
    delimiter_of,
    parse_table,
    read_table,
    without_cells,
    without_rows,
)
from bookmaker.reading.files import on_disk
from bookmaker.reading.lines import Outline, outline
from bookmaker.reading.names import id_of, is_called, is_spot_name, name_all
from bookmaker.reading.opening import open_manifest
from bookmaker.reading.read import Reading, read
from bookmaker.reading.sketch import NoSketch, Sketch, sketch, sketches
from bookmaker.reading.toml import Parsed, Written, parse, read_toml

__all__ = [
    "ClassReading",
    "NoSketch",
    "Outline",
    "Parsed",
    "Reading",
    "Row",
    "Sketch",
    "Table",
    "Written",
    "delimiter_of",
    "id_of",
    "is_called",
    "is_spot_name",
    "name_all",
    "on_disk",
    "open_manifest",
    "outline",
    "parse",
    "parse_table",
    "read",
    "read_class",
    "read_table",
    "read_toml",
    "sketch",
    "sketches",
    "without_cells",
    "without_rows",
]
