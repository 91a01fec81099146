"""A plain description of a workbook, and the three writers that can turn it into a file.

A book is a list of sheets, a sheet a list of rows, a row a list of plain values or Cells.
The same description is written by openpyxl or by XlsxWriter; the third writer, LibreOffice,
is given the openpyxl file and saves it again in its own way (see make.sh).
"""
from dataclasses import dataclass, field
import datetime

import openpyxl
from openpyxl.comments import Comment
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.utils import get_column_letter
import xlsxwriter

HEADER_FILL = "D9D9D9"
DATE = "yyyy-mm-dd"
LIFT = ".000"
ONE = "0.0"
DOLLARS = "#,##0"
CENTS = "#,##0.00"


@dataclass
class Cell:
    """One cell; `formula` is stored with `value` as its result (XlsxWriter and LibreOffice only)."""
    value: object
    fmt: str = ""
    bold: bool = False
    italic: bool = False
    fill: bool = False
    wrap: bool = False
    size: int = 0
    center: bool = False
    formula: str = ""


@dataclass
class Sheet:
    name: str
    rows: list
    widths: list = field(default_factory=list)
    merges: list = field(default_factory=list)   # "B5:C5"
    hidden: list = field(default_factory=list)   # column letters
    notes: dict = field(default_factory=dict)    # "E12": comment text
    heights: dict = field(default_factory=dict)  # row number: points
    freeze: str = ""
    chart: dict = None                           # XlsxWriter only
    picture: str = ""                            # XlsxWriter only


@dataclass
class Book:
    path: str            # beneath testdata/demo
    sheets: list
    author: str
    saved: str           # ISO date, the file's created and modified date
    font: str = "Calibri"


def title(text):
    return Cell(text, bold=True, size=13)


def head(*texts, wrap=False):
    """A header row."""
    return [Cell(t, bold=True, fill=True, wrap=wrap) if t != "" else None for t in texts]


def banner(text):
    return Cell(text, bold=True, fill=True, center=True)


def bold(text):
    return Cell(text, bold=True)


def ital(text):
    return Cell(text, italic=True)


def lift(inches):
    return Cell(inches, LIFT)


def day(iso):
    return Cell(datetime.date.fromisoformat(iso), DATE)


def money(dollars):
    return Cell(dollars, CENTS)


def as_cell(value):
    return value if isinstance(value, Cell) else Cell(value)


def saved_at(book):
    return datetime.datetime.fromisoformat(book.saved + "T07:40:00")


def write_openpyxl(book, path):
    wb = openpyxl.Workbook()
    wb.remove(wb.active)
    wb.properties.creator = wb.properties.lastModifiedBy = book.author
    wb.properties.created = wb.properties.modified = saved_at(book)
    for sheet in book.sheets:
        ws = wb.create_sheet(sheet.name)
        for r, row in enumerate(sheet.rows, 1):
            for c, value in enumerate(row, 1):
                if value is not None:
                    put_openpyxl(ws.cell(r, c), as_cell(value), book.font)
        for i, width in enumerate(sheet.widths, 1):
            ws.column_dimensions[get_column_letter(i)].width = width
        for letter in sheet.hidden:
            ws.column_dimensions[letter].hidden = True
        for r, points in sheet.heights.items():
            ws.row_dimensions[r].height = points
        for area in sheet.merges:
            ws.merge_cells(area)
        for at, text in sheet.notes.items():
            ws[at].comment = Comment(text, book.author)
        if sheet.freeze:
            ws.freeze_panes = sheet.freeze
    wb.save(path)


def put_openpyxl(target, cell, font):
    target.value = "=" + cell.formula if cell.formula else cell.value
    target.font = Font(name=font, size=cell.size or 11, bold=cell.bold, italic=cell.italic)
    if cell.fmt:
        target.number_format = cell.fmt
    if cell.fill:
        target.fill = PatternFill("solid", fgColor=HEADER_FILL)
    if cell.wrap or cell.center:
        target.alignment = Alignment(wrap_text=cell.wrap, vertical="top" if cell.wrap else None,
                                     horizontal="center" if cell.center else None)


def write_xlsxwriter(book, path):
    wb = xlsxwriter.Workbook(path)
    wb.set_properties({"author": book.author, "created": saved_at(book)})
    formats = {}
    for sheet in book.sheets:
        ws = wb.add_worksheet(sheet.name)
        for i, width in enumerate(sheet.widths):
            letter = get_column_letter(i + 1)
            ws.set_column(i, i, width, None, {"hidden": letter in sheet.hidden})
        for r, points in sheet.heights.items():
            ws.set_row(r - 1, points)
        for area in sheet.merges:
            ws.merge_range(area, "")
        for r, row in enumerate(sheet.rows):
            for c, value in enumerate(row):
                if value is not None:
                    put_xlsxwriter(wb, ws, formats, r, c, as_cell(value), book.font)
        for at, text in sheet.notes.items():
            ws.write_comment(at, text, {"author": book.author})
        if sheet.freeze:
            ws.freeze_panes(sheet.freeze)
        if sheet.chart:
            add_chart(wb, ws, sheet)
        if sheet.picture:
            ws.insert_image("B2", sheet.picture, {"x_scale": 0.6, "y_scale": 0.6})
    wb.close()


def put_xlsxwriter(wb, ws, formats, r, c, cell, font):
    look = {"font_name": font, "font_size": cell.size or 11}
    for name, on in (("bold", cell.bold), ("italic", cell.italic), ("text_wrap", cell.wrap)):
        if on:
            look[name] = True
    if cell.fmt:
        look["num_format"] = cell.fmt
    if cell.fill:
        look["bg_color"] = "#" + HEADER_FILL
    if cell.center:
        look["align"] = "center"
    key = tuple(sorted(look.items()))
    if key not in formats:
        formats[key] = wb.add_format(look)
    fmt = formats[key]
    if cell.formula:
        ws.write_formula(r, c, "=" + cell.formula, fmt, cell.value)
    elif isinstance(cell.value, (datetime.date, datetime.datetime)):
        ws.write_datetime(r, c, datetime.datetime.combine(cell.value, datetime.time()), fmt)
    elif isinstance(cell.value, str):
        ws.write_string(r, c, cell.value, fmt)
    else:
        ws.write(r, c, cell.value, fmt)


def add_chart(wb, ws, sheet):
    chart = wb.add_chart({"type": "scatter", "subtype": "straight_with_markers"})
    first, last = sheet.chart["rows"]
    for name, letter in sheet.chart["series"]:
        chart.add_series({
            "name": name,
            "categories": f"='{sheet.name}'!$A${first}:$A${last}",
            "values": f"='{sheet.name}'!${letter}${first}:${letter}${last}",
        })
    chart.set_title({"name": sheet.chart["title"]})
    chart.set_x_axis({"name": "lift, in"})
    chart.set_y_axis({"name": "cfm at 28 inH2O"})
    ws.insert_chart(sheet.chart["at"], chart)
