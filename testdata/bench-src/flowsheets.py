#!/usr/bin/python3
"""Writes generated flow sheets to measure readers with.

Usage: /usr/bin/python3 testdata/bench-src/flowsheets.py FOLDER [BOOKS]

Every book has one to three sheets in the manner of a shop: a title, the
conditions, a table of lifts with the flow of two to eight ports, formulas with
stored results for their mean, notes at the foot. One half is written by
openpyxl and one half by xlsxwriter, whose books have a table of shared texts as
those of desktop programs do. All figures are invented; the same folder comes
out every time.
"""

import os
import random
import sys

import openpyxl
import xlsxwriter

LIFTS = [round(0.05 * n, 3) for n in range(1, 17)]


class Formula:
    def __init__(self, text, result):
        self.text, self.result = text, result


def page(number, title, rng):
    """The rows of one sheet."""
    ports = rng.randint(2, 8)
    rows = [
        [f"Flow sheet {number}, {title.lower()}"],
        ["head", f"VR-{number}", "valve", round(rng.uniform(1.5, 2.1), 2), "in"],
        ["bench", "no. 2", "test pressure", 28, "inH2O", "bore", 4.03],
        ["date", f"2026-{1 + number % 12:02}-{1 + number % 28:02}", "entry", "clay radius", "by", "bench 2"],
        [],
        ["lift, in"] + [f"port {n}, cfm" for n in range(1, ports + 1)] + ["mean", "note"],
    ]
    last = chr(ord("A") + ports)
    for lift in LIFTS:
        level = 265 * (1 - (1 - min(lift, 0.7) / 0.75) ** 2)
        flows = [round(level * rng.uniform(0.98, 1.02), 1) for _ in range(ports)]
        row = len(rows) + 1
        mean = Formula(f"=AVERAGE(B{row}:{last}{row})", sum(flows) / ports)
        rows.append([lift] + flows + [mean, "re-run" if rng.random() < 0.1 else None])
    rows += [[], ["depression checked at every lift; plug fitted"], ["no correction for leakage"]]
    return rows


def pages(number):
    rng = random.Random(number)
    titles = ["Intake", "Exhaust", "Before"][:rng.randint(1, 3)]
    return {title: page(number, title, rng) for title in titles}


def with_openpyxl(path, number):
    """This writer stores no results, so that its means are plain numbers."""
    made = openpyxl.Workbook()
    made.remove(made.active)
    for title, rows in pages(number).items():
        sheet = made.create_sheet(title)
        for row in rows:
            sheet.append([v.result if isinstance(v, Formula) else v for v in row])
        sheet["A1"].font = openpyxl.styles.Font(bold=True)
        for row in range(7, 7 + len(LIFTS)):
            sheet.cell(row, 1).number_format = "0.000"
    made.save(path)


def with_xlsxwriter(path, number):
    made = xlsxwriter.Workbook(path)
    bold, lift = made.add_format({"bold": True}), made.add_format({"num_format": "0.000"})
    for title, rows in pages(number).items():
        sheet = made.add_worksheet(title)
        for r, row in enumerate(rows):
            for c, v in enumerate(row):
                style = bold if r == 0 else lift if c == 0 and isinstance(v, float) else None
                if isinstance(v, Formula):
                    sheet.write_formula(r, c, v.text, style, v.result)
                elif v is not None:
                    sheet.write(r, c, v, style)
    made.close()


def large(path):
    made = openpyxl.Workbook(write_only=True)
    sheet = made.create_sheet("Log")
    rng = random.Random(0)
    for row in range(5000):
        sheet.append([f"run {row}"] + [round(rng.uniform(50, 300), 2) for _ in range(9)])
    made.save(path)


def main():
    folder, books = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 1000
    os.makedirs(os.path.join(folder, "small"), exist_ok=True)
    os.makedirs(os.path.join(folder, "large"), exist_ok=True)
    for number in range(books):
        write = with_xlsxwriter if number % 2 else with_openpyxl
        write(os.path.join(folder, "small", f"flow {number:04}.xlsx"), number)
    large(os.path.join(folder, "large", "log.xlsx"))


if __name__ == "__main__":
    main()
