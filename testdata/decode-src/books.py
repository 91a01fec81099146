#!/usr/bin/python3
"""Writes the workbooks in ingest/decode/testdata with other people's programs.

Usage: /usr/bin/python3 testdata/decode-src/books.py ingest/decode/testdata

Needs Debian's python3-openpyxl, python3-xlsxwriter and LibreOffice. The books
are checked in; run this again only to change them.
"""

import datetime
import io
import os
import shutil
import subprocess
import sys
import tempfile
import zipfile
import zlib

import openpyxl
import xlsxwriter
from openpyxl.chart import Reference, ScatterChart, Series
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill

LIFTS = [0.1, 0.2, 0.3, 0.4, 0.45, 0.5, 0.55, 0.6]
FLOW = [68, 134, 190.5, 229, 240, 247.25, 250, 251]


def png():
    """A picture of one dot, so that nothing else has to be installed."""

    def chunk(kind, data):
        body = kind + data
        return len(data).to_bytes(4, "big") + body + zlib.crc32(body).to_bytes(4, "big")

    header = (1).to_bytes(4, "big") * 2 + bytes([8, 2, 0, 0, 0])
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header)
            + chunk(b"IDAT", zlib.compress(b"\0\xff\0\0")) + chunk(b"IEND", b""))


def with_openpyxl(path):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Intake LKC-12"
    sheet["A1"] = "Flow at 28 inH2O"
    sheet.merge_cells("A1:C1")
    sheet.append(["lift", "cfm", "tested"])
    for i, (lift, cfm) in enumerate(zip(LIFTS, FLOW)):
        sheet.append([lift, cfm, datetime.date(2026, 3, i + 1)])
        sheet.cell(i + 3, 1).number_format = '0.000" in"'
        sheet.cell(i + 3, 2).number_format = "#,##0.0"
    sheet["A12"], sheet["B12"] = "mean", "=AVERAGE(B3:B10)"
    sheet["B13"], sheet["B14"], sheet["B15"] = True, "#REF!", -1.5e-7
    sheet["B15"].number_format = "0.00E+00"
    sheet["B16"], sheet["C16"] = datetime.time(7, 30), datetime.timedelta(hours=30)
    sheet["A17"] = "  two spaces & <tags>\nnew line, Größe Ø 96 mm"
    sheet["A4"].font = Font(strike=True)
    sheet["A2"].font = Font(bold=True)
    sheet["B5"].fill = PatternFill("solid", fgColor="FFFF00")
    sheet["B6"].fill = PatternFill("solid", fgColor="FFFFFF")
    sheet["B5"].comment = Comment("re-run, plug was loose", "bench")
    sheet["F20"].comment = Comment("nothing here yet", "bench")
    sheet.row_dimensions[7].hidden = True
    sheet.column_dimensions["C"].hidden = True
    chart = ScatterChart()
    chart.series.append(Series(Reference(sheet, min_col=2, min_row=3, max_row=10),
                               Reference(sheet, min_col=1, min_row=3, max_row=10)))
    sheet.add_chart(chart, "E2")
    hidden = book.create_sheet("Old prices")
    hidden["B2"], hidden["C2"] = "list", 1490
    hidden.sheet_state = "hidden"
    deeper = book.create_sheet("Costs")
    deeper["A1"] = 812.5
    deeper.sheet_state = "veryHidden"
    book.create_sheet("Empty")
    book.save(path)


def with_openpyxl_1904(path):
    book = openpyxl.Workbook(iso_dates=True)
    book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    sheet = book.active
    sheet["A1"], sheet["B1"] = "tested", "lift"
    sheet["A2"], sheet["B2"] = datetime.datetime(2026, 3, 16, 13, 30), 0.3
    sheet["A3"] = datetime.date(2026, 2, 28)
    book.save(path)


def number_dates_1904(path):
    book = xlsxwriter.Workbook(path, {"date_1904": True})
    sheet = book.add_worksheet()
    day = book.add_format({"num_format": "d mmm yyyy"})
    sheet.write("A1", "tested")
    sheet.write_datetime("A2", datetime.datetime(2026, 3, 16), day)
    sheet.write("B2", 0.3)
    book.close()


def with_xlsxwriter(path):
    book = xlsxwriter.Workbook(path)
    bold = book.add_format({"bold": True, "bg_color": "#D9E1F2"})
    struck = book.add_format({"font_strikeout": True})
    percent = book.add_format({"num_format": "0.0%"})
    money = book.add_format({"num_format": "$#,##0.00"})
    day = book.add_format({"num_format": "yyyy-mm-dd"})
    sheet = book.add_worksheet("Flow")
    sheet.write_row("A1", ["lift, in", "intake, cfm", "exhaust, cfm", "ratio"], bold)
    for i, (lift, cfm) in enumerate(zip(LIFTS, FLOW)):
        sheet.write_row(i + 1, 0, [lift, cfm, round(cfm * 0.73, 1)])
        sheet.write_formula(i + 1, 3, f"=C{i + 2}/B{i + 2}", percent, round(round(cfm * 0.73, 1) / cfm, 6))
    sheet.write_rich_string("A11", "tested ", struck, "4.030", " bore")
    sheet.write_formula("B11", '=IF(B9>250,"peak","")', None, "peak")
    sheet.write_formula("B12", "=1/0", None, "#DIV/0!")
    sheet.write_formula("B13", "=B2>60", None, True)
    sheet.write_formula("B14", '=IF(1,"","x")', None, "")
    sheet.write_array_formula("B15:B16", "{=B2:B3*2}", None, 136)
    sheet.write("B16", 268)
    sheet.write_boolean("C13", False)
    sheet.write("C14", 1449, money)
    sheet.write_datetime("C15", datetime.datetime(2026, 3, 16), day)
    sheet.write_string("C16", "_x000D_ stays text")
    sheet.write_comment("C14", "per pair, assembled")
    sheet.insert_image("F20", "dot.png", {"image_data": io.BytesIO(png())})
    sheet.insert_textbox("F2", "bench: 28 inH2O\ncorrected")
    chart = book.add_chart({"type": "scatter"})
    chart.add_series({"categories": "=Flow!$A$2:$A$9", "values": "=Flow!$B$2:$B$9"})
    sheet.insert_chart("F5", chart)
    sheet.autofilter("A1:D9")
    sheet.filter_column("A", "x >= 0.2")
    sheet.set_row(1, options={"hidden": True})
    sheet.set_column("D:D", None, None, {"hidden": True})
    sheet.merge_range("A18:B19", "merged")
    picture = book.add_chartsheet("Curve")
    whole = book.add_chart({"type": "line"})
    whole.add_series({"values": "=Flow!$B$2:$B$9"})
    picture.set_chart(whole)
    book.set_custom_property("bench", "no. 2")
    book.set_custom_property("pressure", 28)
    book.close()


def constant_memory(path):
    """Texts inside of the cells instead of in a shared table."""
    book = xlsxwriter.Workbook(path, {"constant_memory": True})
    sheet = book.add_worksheet("Intake")
    sheet.write_row(0, 0, ["lift", " cfm "])
    for i, (lift, cfm) in enumerate(zip(LIFTS, FLOW)):
        sheet.write_row(i + 1, 0, [lift, cfm])
    book.close()


def many_texts(path):
    """A table of texts too long for one record of the old format."""
    book = xlsxwriter.Workbook(path)
    sheet = book.add_worksheet("Notes")
    struck = book.add_format({"font_strikeout": True})
    for row in range(300):
        note = f"run {row}: " + ("plug loose, " if row % 3 else "Drossel 96 mm Ø, σ≈1 %, ") * (row % 7)
        sheet.write(row, 0, note)
        if row % 50 == 0:
            sheet.write_rich_string(row, 1, "was ", struck, f"{row}.5", " now Ω")
    book.close()


def rewrite(source, target, change):
    """Copies a workbook part by part through change(name, data) -> (name, data)."""
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            name, data = change(name, old.read(name))
            new.writestr(name, data)


def strict(source, target):
    """The strict variant of the format: other namespaces, same elements."""
    pairs = [
        (b"http://schemas.openxmlformats.org/officeDocument/2006/relationships/extended-properties",
         b"http://purl.oclc.org/ooxml/officeDocument/relationships/extendedProperties"),
        (b"http://schemas.openxmlformats.org/officeDocument/2006/relationships/custom-properties",
         b"http://purl.oclc.org/ooxml/officeDocument/relationships/customProperties"),
        (b"http://schemas.openxmlformats.org/officeDocument/2006/relationships",
         b"http://purl.oclc.org/ooxml/officeDocument/relationships"),
        (b"http://schemas.openxmlformats.org/spreadsheetml/2006/main",
         b"http://purl.oclc.org/ooxml/spreadsheetml/main"),
        (b"http://schemas.openxmlformats.org/drawingml/2006/main", b"http://purl.oclc.org/ooxml/drawingml/main"),
    ]

    def change(name, data):
        for old, new in pairs:
            data = data.replace(old, new)
        return name, data

    rewrite(source, target, change)


def prefixed(source, target):
    """Every element of the sheets with a namespace prefix, as some programs write."""

    def change(name, data):
        if name.startswith("xl/worksheets/sheet") or name == "xl/sharedStrings.xml":
            data = data.replace(b"</", b"</x:").replace(b"<", b"<x:").replace(b"<x:/x:", b"</x:").replace(b"<x:?", b"<?")
            data = data.replace(b'xmlns="', b'xmlns:x="')
        return name, data

    rewrite(source, target, change)


def utf16(source, target):
    def change(name, data):
        if name.startswith("xl/worksheets/sheet"):
            data = data.decode("utf-8").replace('encoding="UTF-8"', 'encoding="UTF-16"').encode("utf-16")
        return name, data

    rewrite(source, target, change)


def threaded(source, target):
    """A conversation beside the plain note in B5, as current programs write it."""

    def change(name, data):
        if name == "xl/worksheets/_rels/sheet1.xml.rels":
            data = data.replace(b"</Relationships>", b'<Relationship Id="rIdT" '
                                b'Type="http://schemas.microsoft.com/office/2017/10/relationships/threadedComment" '
                                b'Target="../threadedComments/threadedComment1.xml"/></Relationships>')
        if name == "[Content_Types].xml":
            data = data.replace(b"</Types>", b'<Override PartName="/xl/threadedComments/threadedComment1.xml" '
                                b'ContentType="application/vnd.ms-excel.threadedcomments+xml"/></Types>')
        return name, data

    rewrite(source, target, change)
    with zipfile.ZipFile(target, "a", zipfile.ZIP_DEFLATED) as book:
        book.writestr("xl/threadedComments/threadedComment1.xml",
                      '<?xml version="1.0" encoding="UTF-8"?><ThreadedComments xmlns="http://schemas.microsoft.com/'
                      'office/spreadsheetml/2018/threadedcomments"><threadedComment ref="B5" id="{1}" personId="{2}">'
                      '<text>is this with the plug?</text></threadedComment><threadedComment ref="B5" id="{3}" '
                      'parentId="{1}" personId="{2}"><text>no, re-run</text></threadedComment></ThreadedComments>')


def macros(source, target):
    def change(name, data):
        if name == "[Content_Types].xml":
            data = data.replace(b"spreadsheetml.sheet.main", b"SHEET").replace(
                b"openxmlformats-officedocument.SHEET", b"ms-excel.sheet.macroEnabled.main")
            data = data.replace(b"</Types>", b'<Default Extension="bin" '
                                b'ContentType="application/vnd.ms-office.vbaProject"/></Types>')
        if name == "xl/_rels/workbook.xml.rels":
            data = data.replace(b"</Relationships>", b'<Relationship Id="rIdV" Type="http://schemas.microsoft.com/'
                                b'office/2006/relationships/vbaProject" Target="vbaProject.bin"/></Relationships>')
        return name, data

    rewrite(source, target, change)
    with zipfile.ZipFile(target, "a", zipfile.ZIP_DEFLATED) as book:
        book.writestr("xl/vbaProject.bin", bytes(range(256)))


def with_libreoffice(source, target):
    """Opens a book in LibreOffice and saves it again in the target's format."""
    with tempfile.TemporaryDirectory() as scratch:
        kind = target.rsplit(".", 1)[1]
        subprocess.run(["soffice", f"-env:UserInstallation=file://{scratch}/profile", "--headless", "--convert-to",
                        {"xlsx": "xlsx:Calc MS Excel 2007 XML", "xls": "xls:MS Excel 97", "ods": "ods"}[kind],
                        "--outdir", scratch, source], check=True, capture_output=True)
        made = os.path.join(scratch, os.path.basename(source).rsplit(".", 1)[0] + "." + kind)
        shutil.copyfile(made, target)


def main():
    out = os.path.abspath(sys.argv[1])

    def at(name):
        return os.path.join(out, name)

    with_openpyxl(at("openpyxl.xlsx"))
    with_openpyxl_1904(at("isodates-1904.xlsx"))
    number_dates_1904(at("numbers-1904.xlsx"))
    with_xlsxwriter(at("xlsxwriter.xlsx"))
    constant_memory(at("inline.xlsx"))
    many_texts(at("texts-source.xlsx"))
    strict(at("xlsxwriter.xlsx"), at("strict.xlsx"))
    prefixed(at("inline.xlsx"), at("prefixed.xlsx"))
    utf16(at("inline.xlsx"), at("utf16.xlsx"))
    threaded(at("openpyxl.xlsx"), at("threaded.xlsx"))
    macros(at("inline.xlsx"), at("macros.xlsm"))
    for kind in ["xlsx", "ods", "xls"]:
        with_libreoffice(at("xlsxwriter.xlsx"), at("formulas." + kind))
        with_libreoffice(at("openpyxl.xlsx"), at("styles." + kind))
        with_libreoffice(at("texts-source.xlsx"), at("texts." + kind))
    os.remove(at("texts-source.xlsx"))


if __name__ == "__main__":
    main()
