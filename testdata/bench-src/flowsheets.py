#!/usr/bin/python3
"""Writes generated flow sheets to measure readers with.

Usage: /usr/bin/python3 testdata/bench-src/flowsheets.py FOLDER [BOOKS]

Every book has two sheets in the manner of a shop: a title, the conditions, a
table of lifts with intake and exhaust of three ports, and formulas for their
mean. All figures are invented; the same folder comes out every time.
"""

import os
import random
import sys

import openpyxl
from openpyxl.styles import Font

LIFTS = [0.05 * n for n in range(1, 17)]


def book(path, number):
    rng = random.Random(number)
    made = openpyxl.Workbook()
    for title in ("Intake", "Exhaust"):
        sheet = made.active if title == "Intake" else made.create_sheet()
        sheet.title = title
        sheet["A1"] = f"Flow sheet {number}, {title.lower()}"
        sheet["A1"].font = Font(bold=True)
        sheet.append(["bench", "no. 2", "test pressure", 28, "inH2O", "bore", 4.03])
        sheet.append(["lift, in"] + [f"port {n}, cfm" for n in range(1, 9)] + ["mean", "note"])
        for row, lift in enumerate(LIFTS, start=4):
            flow = 265 * (1 - (1 - min(lift, 0.7) / 0.75) ** 2)
            sheet.append([round(lift, 3)] + [round(flow * rng.uniform(0.98, 1.02), 1) for _ in range(8)]
                         + [f"=AVERAGE(B{row}:I{row})", "re-run" if rng.random() < 0.1 else None])
            sheet.cell(row, 1).number_format = "0.000"
    made.save(path)


def large(path):
    made = openpyxl.Workbook(write_only=True)
    sheet = made.create_sheet("Log")
    rng = random.Random(0)
    for row in range(5000):
        sheet.append([f"run {row}"] + [round(rng.uniform(50, 300), 2) for _ in range(9)])
    made.save(path)


def main():
    folder, books = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 200
    os.makedirs(os.path.join(folder, "small"), exist_ok=True)
    os.makedirs(os.path.join(folder, "large"), exist_ok=True)
    for number in range(books):
        book(os.path.join(folder, "small", f"flow {number:03}.xlsx"), number)
    large(os.path.join(folder, "large", "log.xlsx"))


if __name__ == "__main__":
    main()
