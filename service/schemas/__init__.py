"""The shape of a brief: every field with its range, every default with its source."""

from service.schemas.brief import BriefInput
from service.schemas.defaults import DefaultRow, all_rows, default_case, default_rows
from service.schemas.document import read_json
from service.schemas.mistakes import mistakes, nearest, unknown_name
from service.schemas.section import Section

__all__ = [
    "BriefInput",
    "DefaultRow",
    "Section",
    "all_rows",
    "default_case",
    "default_rows",
    "mistakes",
    "nearest",
    "read_json",
    "unknown_name",
]
