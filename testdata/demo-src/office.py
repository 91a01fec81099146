"""The books kept in the office: stock, dimensions, extras, rework, bench log, notes, enquiries."""
import datetime

from sheet import Book, CENTS, Cell, ONE, Sheet, day, head, lift, money, title

FAMILY_SIZE = {"Small Eight": 2, "Large Eight": 2, "Opposed Four": 4}

# head, family, description, heads on hand, sets sold in 12 months, in 90 days, last sale,
# net cost each, freight each, sell price a set, lead weeks; as of 2026-02-28.
STOCK = [
    ("LKC-07", "Small Eight", "iron, assembled", 14, 22, 0, "2025-11-28", 268, "in", 699, 2),
    ("LKC-12", "Small Eight", "alum., assembled", 9, 31, 6, "2026-02-22", 452, "in", 1249, 3),
    ("PW-31", "Small Eight", "alum. 195 cc, assembled", 12, 5, 1, "2025-12-14", 406.20, 28, 1149, 4),
    ("PW-33", "Small Eight", "alum. 220 cc, assembled", 8, 1, 0, "2025-05-18", 496.50, 28, 1399, 4),
    ("OB-4", "Small Eight", "full CNC, assembled", 2, 9, 2, "2026-02-10", 905, 35, 2349, 6),
    ("VR-81", "Small Eight", "raised intake, assembled", 6, 2, 0, "2025-10-05", 430, 24, 1179, 3),
    ("VR-84", "Small Eight", "alum., assembled", 10, 6, 1, "2026-01-16", 372, 24, 999, 3),
    ("LKC-41", "Large Eight", "iron, assembled", 4, 4, 1, "2025-12-29", 410, 19, 1099, 3),
    ("PW-46", "Large Eight", "CNC chamber, assembled", 6, 1, 0, "2025-03-30", 863.10, 28, 2395, 4),
    ("OB-44", "Large Eight", "full CNC, assembled, special order", 0, 3, 1, "2026-01-01", 1695, 35, 4390, 10),
    ("VR-49", "Large Eight", "alum. blended, assembled", 4, 4, 1, "2025-12-11", 985, 24, 2640, 3),
    ("TD-22", "Opposed Four", "alum., assembled", 16, 6, 2, "2026-01-22", 206.01, 19, 1149, 8),
    ("TD-26", "Opposed Four", "alum., assembled", 10, 1, 0, "2025-03-15", 257.24, 19, 1395, 8),
    ("LKC-90", "Opposed Four", "alum., assembled", 20, 9, 3, "2026-02-13", 178, "in", 949, 2),
]
# The month before: what differs, by head: heads on hand, sold 12 m, sold 90 d, last sale, net cost each.
JANUARY = {
    "LKC-07": (14, 22, 2, "2025-11-28", 268),
    "LKC-12": (13, 31, 6, "2026-01-27", 452),
    "OB-4": (2, 9, 2, "2026-01-12", 880),
    "LKC-90": (28, 8, 2, "2026-01-24", 178),
}


def stock(as_of):
    rows = [
        [title(f"Saltmarsh Head & Machine   stock at {as_of}")],
        ["On hand is counted in HEADS.  Sold is counted in SETS.  Cost and freight per head, sell price per set.  USD."],
        [],
        head("Head", "Family", "Description", "On hand (heads)", "Sold 12 m (sets)", "Sold 90 d (sets)", "Last sale",
             "Net cost each $", "Freight each $", "Landed $ / set", "Sell $ / set", "Lead time (weeks)", wrap=True),
    ]
    for name, family, text, on_hand, year, quarter, last, cost, freight, sell, lead in STOCK:
        if as_of == "2026-01-31" and name in JANUARY:
            on_hand, year, quarter, last, cost = JANUARY[name]
        landed = FAMILY_SIZE[family] * (cost + (0 if freight == "in" else freight))
        rows.append([name, family, text, on_hand, year, quarter, day(last), money(cost),
                     freight if freight == "in" else money(freight), Cell(round(landed, 2), CENTS), Cell(sell, "#,##0"), lead])
    widths = [10, 14, 33, 10, 10, 10, 12, 11, 10, 11, 10, 10]
    sheet = Sheet("Stock", rows, widths, freeze="B5", heights={4: 32})
    return Book(f"stock {as_of}.xlsx", [sheet], "Bookkeeping", as_of)


# What a spreadsheet makes of the stem size 11/32 when a person types it into a plain cell.
MANGLED_STEM = Cell(datetime.date(1932, 11, 1), "mmm-yy")

DIMENSIONS = [
    ("LKC-07", "1.940/1.500", "11/32", 1.70, 1.83, 168, 76, .480, 46.0, "iron, as cast", "2 ports", None),
    ("LKC-12", "2.020/1.600", MANGLED_STEM, 1.79, 2.04, 178, 64, .575, 23.4, "alum., as cast, 3-angle", "2 ports", .115),
    ("PW-31", "2.020/1.600", "11/32", 1.80, 2.14, 195, 64, .550, 23.0, "alum., as cast", "1", None),
    ("PW-33", "2.055/1.600", MANGLED_STEM, 1.86, 2.55, 220, 72, .600, 22.8, "alum., as cast", "1", .085),
    ("OB-4", "2.055/1.600", "5/16", 1.84, 2.20, 195, 65, .650, 24.1, "alum., full CNC", "2 ports", None),
    ("VR-81", "2.020/1.600", "11/32", 1.79, 2.10, 188, 62, .600, 24.6, "alum., raised intake .250", "1", None),
    ("VR-84", "2.020/1.600", MANGLED_STEM, 1.77, 2.06, 185, 64, .600, 23.6, "alum., as cast", "1", None),
    ("LKC-41", "2.065/1.720", "3/8", 1.82, 2.45, 255, 110, .550, 72.5, "iron, as cast", "1", None),
    ("PW-46", "2.250/1.880", "11/32", 2.03, 3.30, 320, 119, .650, 35.0, "alum., CNC chamber", "1", None),
    ("OB-44", "2.250/1.880", "11/32", 2.02, 3.05, 305, 114, .750, 34.2, "alum., full CNC", "both ports", None),
    ("VR-49", "2.250/1.880", "11/32", 2.00, 3.12, 315, 118, .700, 34.8, "alum., as cast, blended", "1, two bores", None),
    ("TD-22", "44/37 mm", "8 mm", "38.5 mm", 1.46, 92, 44, "12.5 mm", 7.9, "alum.", "supplier", None),
    ("TD-26", "46/38 mm", "8 mm", "41.0 mm", 1.66, 106, 43, "12.5 mm", 7.9, "alum.", "supplier", None),
    ("LKC-90", "44/37 mm", "8 mm", "38.3 mm", 1.42, 90, 45, .500, 8.1, "alum.", "1", None),
]


def dimensions():
    rows = [
        [title("Dimensions")],
        ["Measured here on the sample we flowed; TD- figures from Tidewell.  Inches unless mm is written.  "
         "JT / MK, last changed 2026-02-06"],
        ["Min CSA is the smallest cross-section of the intake runner.  "
         "Max lift is what the maker allows for the springs fitted."],
        [],
        head("Head", "Valves int/exh", "Stem", "Throat", "Min CSA in²", "Runner cc", "Chamber cc", "Max lift",
             "Weight lb", "Material / process", "Samples", "Intake valve to wall, in (4.030 bore)", wrap=True),
    ]
    for name, valves, stem, throat, csa, runner, chamber, top, weight, made, samples, wall in DIMENSIONS:
        rows.append([name, valves, stem, throat if isinstance(throat, str) else Cell(throat, "0.00"), Cell(csa, "0.00"),
                     runner, chamber, top if isinstance(top, str) else lift(top), Cell(weight, ONE), made, samples,
                     None if wall is None else Cell(wall, "0.000")])
    widths = [10, 14, 9, 9, 9, 9, 9, 9, 9, 26, 13, 17]
    return Book("dimensions.xlsx", [Sheet("Dimensions", rows, widths, freeze="B6", heights={5: 48})], "JT", "2026-02-06")


def extras():
    rows = [
        [title("What else has to be bought")],
        ["Dollars per set, customer's price.  2026-01-12"],
        [],
        head("Head", "Item", "Needed when", "$", "Per", "Who"),
        ["VR-81", "manifold for the raised intake port", "always", 465, "set", "customer buys from us"],
        ["VR-81", "deeper valve reliefs cut in the pistons", "always", 340, "set", "our machinist"],
        ["VR-81", "push-rods, longer", "always", 135, "set", "customer buys from us"],
        ["VR-81", "valve cover spacers", "always", 70, "set", "customer buys from us"],
        ["LKC-07", "spring kit", "lift > .480", 180, "set", "our bench"],
        ["PW-31", "spring kit", "lift > .550", 210, "set", "our bench"],
        ["PW-46", "spring kit", "lift > .650", 240, "set", "our bench"],
        ["LKC-41", "spring kit", "lift > .550", 220, "set", "our bench"],
    ]
    return Book("extras.xlsx", [Sheet("Extras", rows, [10, 38, 14, 8, 8, 24])], "JT", "2026-01-12")


def rework_menu():
    rows = [
        [title("Rework menu 2026")],
        ["Per set of 2 heads, USD.  Internal cost is our time and tooling; not for the counter."],
        [],
        head("Work", "Price $ / set of 2", "Internal cost $ / set of 2", "Hours / set of 2"),
        ["valve job", 260, 148, Cell(3.0, ONE)],
        ["short-side blend", 320, 185, Cell(4.0, ONE)],
        ["resurface", 90, 42, Cell(0.8, ONE)],
    ]
    return Book("rework menu.xlsx", [Sheet("Menu", rows, [20, 20, 26, 18])], "MK", "2026-01-05")


BENCH_LOG = [
    ("2026-01-08", 250.3, 0.9, 64, "second blower off today"),
    ("2026-01-15", 249.8, 1.1, 66, ""),
    ("2026-01-22", 253.5, 1.3, 58, "cold morning, zeroed twice, still high"),
    ("2026-01-29", 250.9, 0.8, 65, ""),
    ("2026-02-05", 249.6, 1.2, 66, ""),
    ("2026-02-12", 250.6, 1.0, 67, ""),
    ("2026-02-19", 251.1, 1.6, 65, ""),
    ("2026-02-26", 251.4, 1.4, 68, ""),
    ("2026-03-05", 250.2, 1.1, 67, ""),
    ("2026-03-12", 249.9, 0.9, 69, ""),
]


def bench_log():
    rows = [
        [title("Bench log   Saltmarsh shop bench")],
        ["Check plate, nominal 250 cfm at 28 inH2O, read warm.  Leak with the blank on, at 28 inH2O."],
        [],
        head("Date", "Plate nominal cfm", "Plate read cfm", "Leak cfm", "Temp F", "Operator", "Remarks"),
    ]
    rows += [[day(at), 250, Cell(read, ONE), Cell(leak, ONE), temp, "JT", text or None]
             for at, read, leak, temp, text in BENCH_LOG]
    return Book("bench log.xlsx", [Sheet("Log", rows, [12, 18, 15, 10, 8, 10, 38], freeze="A5")], "JT", "2026-03-12",
                "Liberation Sans")


NOTES = [
    ("LKC-07", "chamber 76 cc, watch the compression on a flat-top piston", "against", "MK", "2026-02-05"),
    ("LKC-07", "never one back in six years", "for", "JT", "2026-01-09"),
    ("LKC-12", "seats true within .001 in", "for", "MK", "2026-01-22"),
    ("LKC-12", "ports match the gasket without work", "for", "JT", "2026-03-12"),
    ("PW-31", "spring tag does not agree with the spring in the head", "against", "JT", "2026-01-15"),
    ("PW-33", "guides at the loose limit", "against", "MK", "2026-02-05"),
    ("OB-4", "finish and fit of the machining", "for", "JT", "2026-01-15"),
    ("VR-81", "headers fit, the old manifold does not", "against", "JT", "2026-01-08"),
    ("VR-84", "core shifted toward one wall", "against", "MK", "2026-02-05"),
    ("VR-84", "plenty of meat in the short side", "for", "MK", "2026-02-05"),
    ("LKC-41", "deck flat within .001 in", "for", "MK", "2025-10-02"),
    ("PW-46", "deck .004 in out of flat and locators missing", "against", "MK", "2026-03-05"),
    ("OB-44", "all eight ports alike within 1 %", "for", "JT", "2026-01-29"),
    ("VR-49", "blend is even port to port", "for", "JT", "2026-01-29"),
    ("TD-26", "two odd heads came without valves seated", "against", "JT", "2025-06-18"),
    ("LKC-90", "pushrod tubes sit straight", "for", "MK", "2025-09-11"),
]


def notes():
    rows = [[title("Notes on heads")], ["What we found handling them; for or against the head."], [],
            head("Head", "Finding", "For / against", "By", "Date")]
    rows += [[name, text, side, by, day(at)] for name, text, side, by, at in NOTES]
    return Book("notes.xlsx", [Sheet("Notes", rows, [10, 56, 14, 6, 12], freeze="A5")], "JT", "2026-03-12")


def enquiries():
    musts = "springs, air speed, budget"
    rows = [
        [title("Enquiries")],
        ["Lift is at the valve.  Budget is all-in, dollars for the set.  Inches unless mm is written."],
        [],
        head("No.", "Date", "For", "Family", "Bore", "Stroke", "Cylinders", "Rpm", "Valve lift", "Budget $", "Must have"),
        [1, day("2026-03-09"), "331 street and strip, phone", "Small Eight", Cell(4.030, "0.000"), Cell(3.250, "0.000"),
         8, 6500, lift(.560), 1800, musts],
        [2, day("2026-03-10"), "355 tow engine, counter", "Small Eight", Cell(4.030, "0.000"), Cell(3.480, "0.000"),
         8, 5000, lift(.470), 1000, musts],
        [3, day("2026-03-11"), "467 for a ramp truck, phone", "Large Eight", Cell(4.310, "0.000"), Cell(4.000, "0.000"),
         8, 6800, lift(.680), 3000, musts],
        [4, day("2026-03-13"), "opposed four, hill climb, letter", "Opposed Four", "96 mm", "80 mm",
         4, 5500, "11 mm", None, None],
    ]
    sheet = Sheet("Enquiries", rows, [6, 12, 32, 14, 9, 9, 10, 8, 10, 10, 28], freeze="A5")
    return Book("enquiries.xlsx", [sheet], "JT", "2026-03-13", "Liberation Sans")
