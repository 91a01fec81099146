"""Works out the demo's averages and dollars from the finished books, with nothing of the project in between.

    check.py [DEMO]

Curves go through (0, 0) and the readings with scipy's PchipInterpolator (Fritsch-Butland slopes); averages are integral
means. Exits 1 if a figure is off: averages and peaks by more than 0.1 cfm, dollars by more than $3.
"""
import pathlib
import sys

import openpyxl
from scipy.interpolate import PchipInterpolator

DEMO = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else pathlib.Path(__file__).parent / "../demo")
RANGES = {"Small Eight": (.200, .560, .300, .500), "Large Eight": (.200, .700, .350, .600),
          "Opposed Four": (.100, .433, .200, .350)}
WORTH = {"Small Eight": 25, "Large Eight": 40, "Opposed Four": 60}

# head: family, usable cost, working average, mid-lift average, peak in range (None where the range's peak is not listed).
EXPECTED = {
    "LKC-12": ("Small Eight", 1249, 211.96, 225.23, 250.3),
    "VR-84 valve job": ("Small Eight", 1259, 203.64, 216.71, 236.0),
    "PW-33": ("Small Eight", 1399, 207.95, 222.61, 264.0),
    "VR-84": ("Small Eight", 999, 191.89, 206.94, 226.0),
    "VR-84 blend": ("Small Eight", 1579, 211.95, 224.74, 251.5),
    "LKC-07": ("Small Eight", 879, 178.80, 189.78, 205.0),
    "PW-31": ("Small Eight", 1359, 197.39, 209.59, 240.6),
    "OB-4": ("Small Eight", 2349, 231.52, 246.10, 283.0),
    "VR-81": ("Small Eight", 2189, 216.17, 229.60, 263.8),
    "VR-49": ("Large Eight", 2640, 277.64, 299.6, 343.0),
    "LKC-41": ("Large Eight", 1319, 224.90, 243.09, 266.0),
    "OB-44": ("Large Eight", 4390, 290.60, 313.96, 361.0),
    "PW-46": ("Large Eight", None, 271.17, None, None),
    "PW-46 believed": ("Large Eight", None, 280.0, None, None),
    "LKC-90": ("Opposed Four", 949, 115.11, 123.20, None),
    "TD-22": ("Opposed Four", 1149, 118.70, 127.49, None),
    "TD-26": ("Opposed Four", 1395, 125.12, 136.05, None),
}
EXPECTED_VALUE = {"LKC-12": 4050, "VR-84 valve job": 3832, "PW-33": 3800, "VR-84": 3798, "VR-84 blend": 3720, "LKC-07": 3591,
                  "PW-31": 3576, "OB-4": 3439, "VR-81": 3215, "VR-49": 8466, "LKC-41": 7677, "OB-44": 7234}
EXPECTED_CASH = 46812


def sheet(path, name=None):
    book = openpyxl.load_workbook(DEMO / path, data_only=True)
    return book[name] if name else book.worksheets[0]


def column(ws, letter, first, last):
    return [ws[f"{letter}{r}"].value for r in range(first, last + 1)]


def number(value):
    """The number a typed cell begins with: `264*`, `257 (backs up)`, `.100`, `18,8`."""
    if isinstance(value, (int, float)):
        return float(value)
    return float(value.split()[0].rstrip("*").replace(",", "."))


def pairs(lifts, flows):
    return [(number(at), number(q)) for at, q in zip(lifts, flows) if q not in (None, "-")]


def curves():
    b = {}
    ws = sheet("bench/LKC-12 cyl 1 and 3.xlsx")
    lifts = column(ws, "A", 6, 14)
    b["LKC-12"] = [(number(at), (one + three) / 2)
                   for at, one, three in zip(lifts, column(ws, "B", 6, 14), column(ws, "C", 6, 14))]
    ws = sheet("bench/Small Eight shootout.xlsx")
    for name, letter in (("LKC-07", "B"), ("PW-33", "D"), ("VR-84 of the shootout", "F")):
        b[name] = pairs(column(ws, "A", 7, 15), column(ws, letter, 7, 15))
    ws = sheet("bench/VR-84 before after.xlsx")
    for name, letter in (("VR-84", "B"), ("VR-84 valve job", "C"), ("VR-84 blend", "D")):
        b[name] = pairs(column(ws, "A", 8, 16), column(ws, letter, 8, 16))
    assert b["VR-84"] == b["VR-84 of the shootout"]
    ws = sheet("bench/PW-31 adv v tested.xlsx")
    b["PW-31"] = pairs(column(ws, "A", 7, 15), column(ws, "C", 7, 15))
    ws = sheet("bench/OB-4 raw.xlsx")
    scale = dict(item.split("=") for item in ws["A5"].value.split("): ")[1].split())
    b["OB-4"] = [(at, float(scale[str(rng)]) * pct / 100) for at, rng, pct in
                 zip(column(ws, "A", 9, 17), column(ws, "B", 9, 17), column(ws, "C", 9, 17))]
    ws = sheet("bench/VR-81 25in.xlsx")
    b["VR-81"] = [(ws.cell(5, c).value, ws.cell(6, c).value * (28 / 25) ** .5) for c in range(2, 11)]
    return {**b, **large_curves(), **metric_curves()}


def large_curves():
    b = {}
    ws = sheet("bench/OB-44 long short.xlsx")
    b["OB-44"] = [(number(at), (a + c) / 2 * (28 / tp) ** .5) for at, tp, a, c in
                  zip(*(column(ws, letter, 9, 16) for letter in "ABCD"))]
    ws = sheet("bench/VR-49.xlsx")
    share = (4.310 - 4.250) / (4.500 - 4.250)  # ln q linear in the bore between the two fixtures
    b["VR-49"] = [(at, small ** (1 - share) * big ** share) for at, small, big in
                  zip(column(ws, "A", 7, 14), column(ws, "B", 7, 14), column(ws, "F", 7, 14))]
    ws = sheet("bench/PW-46.xlsx")
    b["PW-46 believed"] = pairs(column(ws, "A", 8, 15), column(ws, "B", 8, 15))
    b["PW-46"] = [(at, 143.0 if q == 243 else q) for at, q in b["PW-46 believed"]]
    for name, tab in (("LKC-41", "LKC-41 4.310 28in"), ("LKC-90", "LKC-90 96mm 28in")):
        ws = sheet("bench/old eights and fours.xlsx", tab)
        b[name] = [(at / 1000, q) for at, q in pairs(column(ws, "A", 5, ws.max_row), column(ws, "B", 5, ws.max_row))]
    return b


def metric_curves():
    ws = sheet("Tidewell Messblatt.xlsx")
    to_cfm = 2.118880 * (28 * 249.08891 / 6000) ** .5  # L/s at 60 mbar to cfm at 28 inH2O
    found = {}
    for name, first in (("TD-22", 8), ("TD-26", 18)):
        assert ws[f"A{first - 2}"].value.startswith(name)
        found[name] = [(mm / 25.4, number(q) * to_cfm) for mm, q in
                       zip(column(ws, "A", first, first + 5), column(ws, "B", first, first + 5))]
    return found


def mean(curve, low, high):
    return curve.integrate(low, high) / (high - low)


def usable_costs():
    stock = {row[0]: row for row in sheet("stock 2026-02-28.xlsx").iter_rows(min_row=5, values_only=True)}
    costs = {name: row[10] for name, row in stock.items()}
    family = {name: row[1] for name, row in stock.items()}
    for name, item, when, dollars, *_ in sheet("extras.xlsx").iter_rows(min_row=5, values_only=True):
        if when == "always" or RANGES[family[name]][1] > float(when.split(">")[1]):
            costs[name] += dollars
    work = {row[0]: row[1] for row in sheet("rework menu.xlsx").iter_rows(min_row=5, values_only=True)}
    costs["VR-84 valve job"] = costs["VR-84"] + work["valve job"]
    costs["VR-84 blend"] = costs["VR-84 valve job"] + work["short-side blend"]
    cash = sum(row[3] * row[9] / (4 if row[1] == "Opposed Four" else 2) for row in stock.values())
    return costs, cash


def main():
    readings, (costs, cash), wrong = curves(), usable_costs(), 0

    def check(what, got, want, tolerance):
        nonlocal wrong
        off = abs(got - want) > tolerance
        wrong += off
        print(f"  {what:<22}{got:10.2f}  wanted {want:10.2f}{'  OFF' if off else ''}")

    for name, (family, cost, average, mid, peak) in EXPECTED.items():
        low, high, band_low, band_high = RANGES[family]
        points = [(0.0, 0.0)] + sorted(readings[name])
        curve = PchipInterpolator(*zip(*points))
        print(name)
        check("working average", mean(curve, low, high), average, .1)
        if mid:
            check("mid-lift average", mean(curve, band_low, band_high), mid, .1)
        if peak:
            tops = [float(curve(at)) for at in (low, high)] + [q for at, q in points if low <= at <= high]
            check("peak in range", max(tops), peak, .1)
        if cost:
            check("usable cost", costs[name], cost, 3)
        if name in EXPECTED_VALUE:
            check("value", WORTH[family] * mean(curve, low, high) - costs[name], EXPECTED_VALUE[name], 3)
    check("cash in heads", cash, EXPECTED_CASH, 3)
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
