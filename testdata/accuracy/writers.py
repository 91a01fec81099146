"""Writes a Book with openpyxl, with xlsxwriter, as CSV, or for LibreOffice to
save again."""
import csv
import datetime
import io
import pathlib
import subprocess
import tempfile

import openpyxl
import xlsxwriter
from openpyxl.chart import LineChart, Reference
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill
from openpyxl.utils import get_column_letter


def with_openpyxl(book, path):
    wb = openpyxl.Workbook()
    wb.remove(wb.active)
    for s in book.sheets:
        ws = wb.create_sheet(s.name)
        for (r, c), v in sorted(s.cells.items()):
            cell = ws.cell(r, c)
            cell.value = "=" + v.formula if v.formula else v.v
            if v.fmt:
                cell.number_format = v.fmt
            if v.strike or v.bold:
                cell.font = Font(strike=v.strike or None, bold=v.bold or None)
            if v.colour:
                cell.fill = PatternFill("solid", fgColor=v.colour)
            if v.note:
                cell.comment = Comment(v.note, "JT")
        for a, b, c, d in s.merges:
            ws.merge_cells(start_row=a, start_column=b, end_row=c, end_column=d)
        for r in s.hidden_rows:
            ws.row_dimensions[r].hidden = True
        for c in s.hidden_cols:
            ws.column_dimensions[get_column_letter(c)].hidden = True
        if s.hidden:
            ws.sheet_state = "hidden"
        if s.chart:
            chart = LineChart()
            chart.add_data(Reference(ws, min_col=2, min_row=3, max_row=9))
            ws.add_chart(chart, "J2")
    wb.properties.created = wb.properties.modified = datetime.datetime(2026, 3, 1)
    wb.save(path)


def with_xlsxwriter(book, path):
    wb = xlsxwriter.Workbook(str(path))
    for s in book.sheets:
        ws = wb.add_worksheet(s.name)
        for a, b, c, d in s.merges:
            ws.merge_range(a - 1, b - 1, c - 1, d - 1, "")
        for (r, c), v in sorted(s.cells.items()):
            look = {"num_format": v.fmt or ("yyyy-mm-dd" if hasattr(v.v, "year") else None), "font_strikeout": v.strike or None, "bold": v.bold or None,
                    "bg_color": "#" + v.colour if v.colour else None}
            look = {k: x for k, x in look.items() if x}
            f = wb.add_format(look) if look else None
            if v.formula:
                ws.write_formula(r - 1, c - 1, "=" + v.formula, f, v.v)
            elif hasattr(v.v, "year"):
                ws.write_datetime(r - 1, c - 1, datetime.datetime(v.v.year, v.v.month, v.v.day), f)
            elif isinstance(v.v, str):
                ws.write_string(r - 1, c - 1, v.v, f)
            else:
                ws.write_number(r - 1, c - 1, v.v, f)
            if v.note:
                ws.write_comment(r - 1, c - 1, v.note)
        for r in s.hidden_rows:
            ws.set_row(r - 1, None, None, {"hidden": True})
        for c in s.hidden_cols:
            ws.set_column(c - 1, c - 1, None, None, {"hidden": True})
        if s.hidden:
            ws.hide()
        if s.chart:
            chart = wb.add_chart({"type": "line"})
            chart.add_series({"values": [s.name, 2, 1, 8, 1]})
            ws.insert_chart("J2", chart)
    wb.set_properties({"created": datetime.datetime(2026, 3, 1)})
    wb.close()


def shown_text(v, mark):
    """What a spreadsheet writes into a CSV: the number as it is displayed."""
    x = v.v
    if isinstance(x, str):
        return x
    if hasattr(x, "year"):
        return f"{x:%Y-%m-%d}"
    fmt = v.fmt or ""
    if fmt.endswith("%"):
        text = f"{x * 100:.1f}%"
    elif fmt == ".000":
        text = f"{x:.3f}"
        text = text[1:] if text.startswith("0") else text
    elif "#" in fmt:
        text = f"{x:.3f}"
        text = text[:-1] if text.endswith("0") else text
    elif fmt.startswith("0"):
        text = f"{x:.{len(fmt.partition('.')[2])}f}"
    else:
        text = f"{x:.10g}"
    return text.replace(".", mark)


def as_csv(book, path, mark, encoding):
    s = book.sheets[0]
    rows, cols = s.end()
    out = io.StringIO()
    w = csv.writer(out, delimiter=";" if mark == "," else ",", lineterminator="\r\n")
    for r in range(1, rows + 1):
        w.writerow([shown_text(s.cells[r, c], mark) if (r, c) in s.cells else "" for c in range(1, cols + 1)])
    pathlib.Path(path).write_bytes(out.getvalue().encode(encoding))


def fits_csv(book):
    s = book.sheets[0]
    return (len(book.sheets) == 1 and not book.tab_speaks and not s.merges and not s.hidden_rows and not s.hidden_cols
            and not s.chart and not any(v.formula or v.note or v.strike or v.colour for v in s.cells.values()))


def needs_stored_results(book):
    return any(v.formula and v.stored for s in book.sheets for v in s.cells.values())


def needs_no_results(book):
    return any(v.formula and not v.stored for s in book.sheets for v in s.cells.values())


def save_again(paths, out):
    """Lets LibreOffice open and save the files, all in one go."""
    if not paths:
        return
    with tempfile.TemporaryDirectory() as profile:
        subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{profile}", "--convert-to", "xlsx:Calc MS Excel 2007 XML",
                        "--outdir", str(out), *map(str, paths)], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=900)
