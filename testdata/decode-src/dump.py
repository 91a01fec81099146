#!/usr/bin/python3
"""Prints what openpyxl sees in workbooks, as JSON, for comparison in tests.

Usage: /usr/bin/python3 testdata/decode-src/dump.py BOOK...
"""

import datetime
import json
import sys

import openpyxl
from openpyxl.utils import get_column_letter
from openpyxl.utils.datetime import to_excel


def plain(value):
    """The kind and value of a cell, dates as serial days of the 1900 system."""
    if isinstance(value, bool):
        return "bool", value
    if isinstance(value, datetime.timedelta):
        return "date", value.total_seconds() / 86400
    if isinstance(value, datetime.time):
        return "date", (value.hour * 60 + value.minute) / 1440 + value.second / 86400
    if isinstance(value, (datetime.date, datetime.datetime)):
        return "date", to_excel(value)
    if isinstance(value, (int, float)):
        return "number", value
    return "text", value


def main():
    books = {}
    for path in sys.argv[1:]:
        formulas = openpyxl.load_workbook(path)
        values = openpyxl.load_workbook(path, data_only=True)
        sheets = []
        for sheet in formulas.worksheets:
            cells = []
            for row in sheet.iter_rows():
                for cell in row:
                    stored = values[sheet.title].cell(cell.row, cell.column)
                    if cell.value is None and not cell.comment:
                        continue
                    kind, value = plain(stored.value)
                    if stored.data_type == "e":
                        kind = "error"
                    if stored.value is None:
                        kind, value = "empty", None
                    cells.append({
                        "row": cell.row, "col": cell.column, "kind": kind, "value": value,
                        "formula": cell.data_type == "f", "format": cell.number_format,
                        "note": cell.comment.text if cell.comment else "",
                        "struck": bool(cell.font.strike), "bold": bool(cell.font.b),
                    })
            sheets.append({
                "name": sheet.title, "hidden": sheet.sheet_state != "visible", "cells": cells,
                "merges": sorted(str(area) for area in sheet.merged_cells.ranges),
                "hiddenRows": sorted(n for n, d in sheet.row_dimensions.items() if d.hidden and n <= sheet.max_row),
                "hiddenCols": sorted(c for c in range(1, sheet.max_column + 1)
                                     if sheet.column_dimensions[get_column_letter(c)].hidden),
            })
        books[path] = sheets
    json.dump(books, sys.stdout)


if __name__ == "__main__":
    main()
