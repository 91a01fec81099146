"""Writes workbooks with everything in them that a marked copy must not lose.

Usage: books.py FOLDER. The places to be marked are the same in all: sheet
"Intake" cells B7 (a number), B3 (carries a note already), D40 (not there yet),
C9 (inside of the merged area B9:C9), and sheet "Exhaust" cell A2.
"""
import sys
import zlib
import struct
import openpyxl
import xlsxwriter
from openpyxl.chart import LineChart, Reference
from openpyxl.comments import Comment
from openpyxl.formatting.rule import CellIsRule
from openpyxl.styles import Font, PatternFill, Protection
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.table import Table

FOLDER = sys.argv[1]
LIFTS = [.1, .2, .3, .4, .5]


def picture():
    """A picture of one dot, as a file."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    raw = (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 2, 0, 0, 0))
           + chunk(b"IDAT", zlib.compress(b"\x00\x7a\x34\x14")) + chunk(b"IEND", b""))
    path = FOLDER + "/dot.png"
    with open(path, "wb") as f:
        f.write(raw)
    return path


def openpyxl_book():
    wb = openpyxl.Workbook()
    ws = wb.active
    ws.title = "Intake"
    ws["A1"] = "Lift"
    ws["B1"] = "cfm"
    for i, lift in enumerate(LIFTS):
        ws.cell(3 + i, 1, lift).number_format = ".000"
        ws.cell(3 + i, 2, 60 * (i + 1))
    ws["B7"].font = Font(name="Georgia", size=13, bold=True, color="FF336699")
    ws["B7"].number_format = '0.0" cfm"'
    ws["B7"].protection = Protection(locked=False)
    ws["B6"].fill = PatternFill("solid", fgColor="FFCCFFCC")
    ws["B8"] = "=SUM(B3:B7)"
    ws["B9"] = "merged"
    ws.merge_cells("B9:C9")
    ws["B3"].comment = Comment("pipe on", "the shop")
    ws["A5"].comment = Comment("second note", "somebody")
    ws.column_dimensions["C"].hidden = True
    ws.row_dimensions[4].hidden = True
    dv = DataValidation(type="list", formula1='"yes,no"')
    ws.add_data_validation(dv)
    dv.add("D1:D9")
    ws.conditional_formatting.add("B3:B7", CellIsRule(operator="greaterThan", formula=["200"], font=Font(bold=True)))
    ws.freeze_panes = "B2"
    ws.oddHeader.center.text = "bench"
    chart = LineChart()
    chart.add_data(Reference(ws, min_col=2, min_row=1, max_row=7), titles_from_data=True)
    ws.add_chart(chart, "F2")
    other = wb.create_sheet("Exhaust")
    other["A1"], other["B1"] = "Lift", "cfm"
    other["A2"], other["B2"] = .3, 90
    other.add_table(Table(displayName="Pipe", ref="A1:B2"))
    wb.create_sheet("Findings")["A1"] = "a tab of this name is there already"
    hidden = wb.create_sheet("Hidden")
    hidden.sheet_state = "hidden"
    hidden["A1"] = "=Intake!B8"
    wb.defined_names.append(DefinedName("Top", attr_text="Intake!$B$7"))
    wb.save(FOLDER + "/openpyxl.xlsx")


def xlsxwriter_book(name, macros):
    wb = xlsxwriter.Workbook(FOLDER + "/" + name)
    wb.set_custom_property("Bench", "number two")
    dot = picture()
    cover = wb.add_worksheet("Cover")
    cover.set_header("&L&G", {"image_left": dot})
    cover.write("A1", "cover")
    ws = wb.add_worksheet("Intake")
    ws.set_header("&C&G", {"image_center": dot})
    number = wb.add_format({"num_format": '0.0" cfm"', "font_name": "Georgia", "font_size": 13, "bold": True, "border": 1})
    ws.write_row("A1", ["Lift", "cfm"])
    for i, lift in enumerate(LIFTS):
        ws.write(2 + i, 0, lift)
        ws.write(2 + i, 1, 60 * (i + 1), number)
    ws.write_formula("B8", "=SUM(B3:B7)", None, 900)
    ws.merge_range("B9:C9", "merged")
    ws.write_rich_string("A10", "plain ", wb.add_format({"bold": True}), "bold")
    ws.write_comment("B3", "pipe on", {"author": "the shop", "visible": True})
    ws.insert_image("H20", dot)
    ws.insert_textbox("K2", "a text box")
    chart = wb.add_chart({"type": "scatter"})
    chart.add_series({"categories": "=Intake!$A$3:$A$7", "values": "=Intake!$B$3:$B$7"})
    ws.insert_chart("F2", chart)
    ws.add_sparkline("E3", {"range": "Intake!B3:B7"})
    ws.data_validation("D1:D9", {"validate": "list", "source": ["yes", "no"]})
    ws.conditional_format("B3:B7", {"type": "data_bar"})
    ws.autofilter("A1:B7")
    ws.set_column("C:C", 9, None, {"hidden": True})
    ws.write_url("A12", "internal:Exhaust!A1")
    if macros:
        with open(FOLDER + "/vba.bin", "wb") as f:
            f.write(b"\xd0\xcf\x11\xe0 stands for a macro project")
        wb.add_vba_project(FOLDER + "/vba.bin")
        ws.insert_button("H2", {"macro": "Nothing", "caption": "Press"})
    ex = wb.add_worksheet("Exhaust")
    ex.add_table("A1:B2", {"data": [[.3, 90]], "columns": [{"header": "Lift"}, {"header": "cfm"}]})
    hidden = wb.add_worksheet("Hidden")
    hidden.very_hidden() if hasattr(hidden, "very_hidden") else hidden.hide()
    plot = wb.add_chart({"type": "line"})
    plot.add_series({"values": "=Intake!$B$3:$B$7"})
    wb.add_chartsheet("Plot").set_chart(plot)
    wb.define_name("Top", "=Intake!$B$7")
    wb.close()


openpyxl_book()
xlsxwriter_book("xlsxwriter.xlsx", False)
xlsxwriter_book("macros.xlsm", True)
