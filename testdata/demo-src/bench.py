"""The shop's own flow sheets: the books beneath bench/ and the old export beside them."""
from figures import *
from sheet import Book, Cell, LIFT, ONE, Sheet, banner, bold, day, head, ital, lift, title

SETUP_LINE = "Saltmarsh shop bench. Int: own plate, clay radius, bare port. Exh: with 1-3/4 x 12 in pipe."


def dotted(inches):
    """The lift as the bench hand types it: .100"""
    return f"{inches:.3f}".lstrip("0")


def lkc12_sample_b():
    rows = [
        [title("LKC-12   sample B   4.030 bore   28 inH2O   2026-03-12   JT")],
        ["serial H5127.  2 ports: cyl 1 and cyl 3.  cfm."],
        [SETUP_LINE],
        [],
        head("Lift", "Int #1", "Int #3", "Avg", "Exh"),
    ]
    for at, one, three, exh in zip(LIFTS, LKC12_CYL1, LKC12_CYL3, EXHAUST["LKC-12"]):
        r = len(rows) + 1
        rows.append([dotted(at), one, three, Cell((one + three) / 2, "0", formula=f"AVERAGE(B{r}:C{r})"), exh])
    columns = list(zip("BCDE", (LKC12_CYL1, LKC12_CYL3, INTAKE["LKC-12"], EXHAUST["LKC-12"])))
    last = len(rows)
    rows.append([bold("Peak")] + [Cell(max(v), bold=True, formula=f"MAX({c}6:{c}{last})") for c, v in columns])
    rows.append([bold("Total")] + [Cell(sum(v), bold=True, formula=f"SUM({c}6:{c}{last})") for c, v in columns])
    return Book("bench/LKC-12 cyl 1 and 3.xlsx", [Sheet("LKC-12", rows, [8, 9, 9, 9, 9])], "JT", "2026-03-12")


def lkc12_sample_a():
    rows = [
        [bold("LKC-12"), "sample A", "4.030 bore", "28 inH2O", "2026-01-22", "JT"],
        ["serial H5102.  2 ports (cyl 1 and 3), mean of the two.  cfm."],
        [SETUP_LINE],
        [],
        head("Lift", "Int", "Exh"),
    ]
    for at, intake, exh in zip(LIFTS, INTAKE["LKC-12"], EXHAUST["LKC-12"]):
        rows.append([lift(at), Cell(round(intake * .994, 1), ONE), Cell(round(exh * .994, 1), ONE)])
    return Book("bench/LKC-12 sample A.xlsx", [Sheet("Sheet1", rows, [10, 10, 11, 10, 11])], "JT", "2026-01-22")


def shootout():
    pw33_int = list(INTAKE["PW-33"])
    pw33_int[LIFTS.index(.550)] = "264*"
    pw33_int[LIFTS.index(.650)] = "257 (backs up)"
    rows = [
        [title("Small Eight shootout")],
        ["2026-02-05   JT   Saltmarsh shop bench"],
        ["All on the 4.030 bore, 28 inH2O, cfm.  Int: own plate, clay radius, bare port.  Exh: with 1-3/4 x 12 in pipe."],
        [],
        [None] + [Cell(t, bold=True, fill=True, wrap=True) if t else None for t in (
            "LKC-07, serial A2214, 2 ports (mean)", "", "PW-33, serial C1187, 1 port", "",
            "VR-84 as del., serial V0631, 1 port", "", "PW-33 old test 2024-06-14")],
        head("Lift", "Int", "Exh", "Int", "Exh", "Int", "Exh", "Int"),
    ]
    columns = [INTAKE["LKC-07"], EXHAUST["LKC-07"], pw33_int, EXHAUST["PW-33"],
               INTAKE["VR-84"], EXHAUST["VR-84"], PW33_OLD]
    for at, *values in zip(LIFTS, *columns):
        rows.append([lift(at), *values])
    rows += [[], [ital("* re-checked")]]
    chart = {"rows": (7, 15), "title": "Small Eight, intake", "at": "J2",
             "series": [("LKC-07", "B"), ("PW-33", "D"), ("VR-84", "F")]}
    sheet = Sheet("Shootout", rows, [8, 10, 10, 15, 10, 10, 10, 12], ["B5:C5", "D5:E5", "F5:G5"], ["H"],
                  heights={5: 48}, chart=chart)
    return Book("bench/Small Eight shootout.xlsx", [sheet], "JT", "2026-02-05")


def ob4_raw():
    def cal(cfm):
        return " ".join(f"{n}={flow}" for n, flow in enumerate(cfm, 1))
    rows = [
        [title("OB-4   serial N3308   4.030 bore   2026-01-15   JT")],
        ["2 ports, mean: cyl 1 and cyl 3 pulled, figures below are the mean of the two."],
        [SETUP_LINE],
        ["Raw: percent of range at 28 inH2O, not worked out yet.  cfm = % x range cfm / 100."],
        ["Range cal, cfm at 28 inH2O (int): " + cal(OB4_RANGE_INT)],
        ["Range cal, cfm at 28 inH2O (exh): " + cal(OB4_RANGE_EXH)],
        [],
        head("Lift", "Rng", "% Int", "Rng", "% Exh"),
    ]
    for at, (int_range, int_pct), (exh_range, exh_pct) in zip(LIFTS, OB4_INT, OB4_EXH):
        rows.append([lift(at), int_range, Cell(int_pct, ONE), exh_range, Cell(exh_pct, ONE)])
    sheet = Sheet("OB-4", rows, [8, 8, 9, 8, 9], notes={"C16": "cyl 1 and 3 within 1 % all the way up. JT"})
    return Book("bench/OB-4 raw.xlsx", [sheet], "JT", "2026-01-15")


def ob44():
    rows = [
        [title("OB-44   serial N4471   4.310 bore   2026-01-29   JT")],
        ["Long and short intake ports: A = long port, B = short port, one of each pulled."],
        ["TP = test pressure held, inH2O.  A and B in cfm as read at that pressure, NOT corrected to 28."],
        ["Exh in cfm, pulled separately at 28 inH2O all the way, with 1-3/4 x 12 in pipe."],
        ["Saltmarsh shop bench.  Int: own plate, clay radius, bare port."],
        [],
        [None, None, banner("INTAKE, as read"), banner(""), banner("EXHAUST @28")],
        head("Lift", "TP", "A", "B", "Exh"),
    ]
    for at, *values in zip(BIG_LIFTS, OB44_TP, OB44_LONG, OB44_SHORT, OB44_EXH):
        rows.append([dotted(at), *values])
    sheet = Sheet("OB-44", rows, [9, 9, 11, 11, 15], ["C7:D7"])
    return Book("bench/OB-44 long short.xlsx", [sheet], "JT", "2026-01-29")


def pw31():
    advertised = dict(zip(ADVERT_LIFTS, zip(PELLWORTH_INT["PW-31"], PELLWORTH_EXH["PW-31"])))
    rows = [
        [title("PW-31: what they say and what we read")],
        ["Test: serial C2093, 1 port, 4.030 bore, 28 inH2O, cfm, 2026-01-15, JT, Saltmarsh shop bench. Own plate, clay radius."],
        ["Test Ex pulled twice: with the 1-3/4 x 12 in pipe, and without."],
        ["Adv: copied from the Pellworth flow chart 2026, their conditions. Blank = they give no figure."],
        [],
        head("Lift", "Adv Int", "Test Int", "Adv Ex", "Test Ex (pipe)", "Test Ex (no pipe)"),
    ]
    tested = zip(LIFTS, INTAKE["PW-31"], EXHAUST["PW-31"], PW31_NO_PIPE)
    for at, intake, piped, bare in tested:
        adv_int, adv_exh = advertised.get(at, (None, None))
        rows.append([lift(at), adv_int, intake, adv_exh, piped, bare])
    sheet = Sheet("PW-31", rows, [8, 10, 10, 10, 15, 17], freeze="B7")
    return Book("bench/PW-31 adv v tested.xlsx", [sheet], "JT", "2026-01-15")


def pw46():
    rows = [
        [title("PW-46"), None, None, None, "JT"],
        ["Serial", "C4410", None, "Date", day("2026-03-05")],
        ["Bore", Cell(4.310, "0.000"), None, "Test press.", "28 inH2O"],
        ["Pipe", "yes, 1-3/4 x 12 in", None, "Entry", "own plate, clay radius"],
        ["Bench", "Saltmarsh shop bench", None, "Ports", 1],
        [],
        head("Lift", "Int cfm", "Exh cfm"),
    ]
    for at, intake, exh in zip(BIG_LIFTS, PW46_INT, PW46_EXH):
        rows.append([lift(at), intake, exh])
    return Book("bench/PW-46.xlsx", [Sheet("PW-46", rows, [9, 20, 10, 12, 22])], "JT", "2026-03-05")


def vr81():
    rows = [
        [title("VR-81   serial V1107   4.030 bore   2026-01-08   JT")],
        ["1 port. One blower off, so pulled at 25 inH2O all the way. As read, NOT corrected to 28."],
        [SETUP_LINE],
        [],
        [Cell('cfm at 25" H2O', bold=True, fill=True)] + [Cell(at, LIFT, bold=True, fill=True) for at in LIFTS],
        ["Intake"] + [Cell(v, ONE) for v in VR81_INT],
        ["Exhaust"] + [Cell(v, ONE) for v in VR81_EXH],
    ]
    return Book("bench/VR-81 25in.xlsx", [Sheet("VR-81", rows, [16] + [8] * 9)], "JT", "2026-01-08")


def vr84_before_after():
    states = ("VR-84", "VR-84 valve job", "VR-84 blend")
    rows = [
        [title("VR-84   serial V0631   before and after our work")],
        ["All three pulls 2026-02-05, same head, same port: as delivered first thing, valve job before lunch, "
         "short-side blend after.  JT / MK"],
        ["4.030 bore, 28 inH2O, cfm.  " + SETUP_LINE],
        ["As del. is the pull that went in the shootout.  VJ = valve job.  Gain = VJ + blend less as delivered."],
        [],
        [None, banner("INTAKE"), banner(""), banner(""), banner(""), banner("EXHAUST"), banner(""), banner(""), banner("")],
        head("Lift", *("As del.", "Valve job", "VJ + blend", "Gain") * 2),
    ]
    for i, at in enumerate(LIFTS):
        r = len(rows) + 1
        row = [lift(at)]
        for port, first, last in ((INTAKE, "B", "D"), (EXHAUST, "F", "H")):
            values = [port[s][i] for s in states]
            row += values + [Cell(values[2] - values[0], "+0;-0;0", formula=f"{last}{r}-{first}{r}")]
        rows.append(row)
    rows[13].append(ital("   noisy at .550 as del."))
    sheet = Sheet("VR-84", rows, [8, 9, 10, 11, 7, 9, 10, 11, 7, 24], ["B6:E6", "F6:I6"])
    return Book("bench/VR-84 before after.xlsx", [sheet], "JT", "2026-02-05")


def vr49():
    rows = [
        [title("VR-49   serial V7719   28 inH2O   cfm   2026-01-29   JT")],
        ["One head, same port, pulled on two fixtures the same morning."],
        [SETUP_LINE],
        [],
        [bold('4-1/4" bore'), None, None, None, bold("4.500 bore")],
        head("Lift", "Int", "Exh") + [None] + head("Lift", "Int", "Exh"),
    ]
    blocks = zip(BIG_LIFTS, VR49_INT_4250, VR49_EXH_4250, VR49_INT_4500, VR49_EXH_4500)
    for at, small_int, small_exh, big_int, big_exh in blocks:
        rows.append([lift(at), small_int, small_exh, None, lift(at), big_int, big_exh])
    return Book("bench/VR-49.xlsx", [Sheet("VR-49", rows, [11, 8, 8, 3, 11, 8, 8])], "JT", "2026-01-29")


def old_eights_and_fours(picture):
    def tab(name, line, lifts, intake, exh):
        rows = [[title(line)], ["cfm.  " + SETUP_LINE], [], head("Lift", "Int", "Exh")]
        rows += [[at, i, e] for at, i, e in zip(lifts, intake, exh)]
        return Sheet(name, rows, [9, 9, 9])
    thou = [int(round(at * 1000)) for at in BIG_LIFTS]
    template = Sheet("TEMPLATE", [
        [title("TEMPLATE - copy this tab, do not fill it in")],
        ["Head ........  serial ........  bore ........  test pressure ........  date ........"],
        [],
        head("Lift", "Int", "Exh"),
        [100, 111, 99], [200, 122, 99], [300, 133, 99], [400, 144, 99],
    ], [9, 9, 9])
    sheets = [
        tab("LKC-90 96mm 28in", "LKC-90   serial F3312   1 port   2025-09-11   JT", LKC90_THOU, LKC90_INT, LKC90_EXH),
        tab("LKC-41 4.310 28in", "LKC-41   serial E0925   1 port   2025-10-02   JT", thou, LKC41_INT, LKC41_EXH),
        template,
        Sheet("scan", [], picture=picture),
    ]
    return Book("bench/old eights and fours.xlsx", sheets, "JT", "2025-10-02")


def vr84_export():
    """The old bench computer's export: VR-84 one per cent lower, and no word on which head it was."""
    rows = [
        ["Head:", "VR-84"], ["State:", "as delivered"], ["Serial:"], ["Date:", "2025-11-20"], ["Operator:", "JT"],
        ["Bench:", "Saltmarsh shop bench"], ["Test Pressure:", Cell(28.0, ONE), "inH2O"], ["Bore:", Cell(4.03, "0.00"), "in"],
        ["Exhaust Pipe:", "yes, 1-3/4 x 12 in"], ["Leak:", Cell(1.2, ONE), "cfm"], [],
        ["Lift in", "Intake cfm", "Exhaust cfm"],
    ]
    for at, intake, exh in zip(LIFTS, INTAKE["VR-84"], EXHAUST["VR-84"]):
        rows.append([Cell(at, "0.000"), Cell(round(intake * .99, 1), ONE), Cell(round(exh * .99, 1), ONE)])
    return Book("VR-84 old.xls", [Sheet("Export", rows, [15, 20, 12])], "JT", "2025-11-20")


def scanned_sheet():
    """The sheet whose picture is pasted in the tab `scan`; LibreOffice draws it."""
    rows = [[title("Flow sheet, typed 2011")], [], head("Lift", "Int", "Exh")]
    rows += [[dotted(at), i, e] for at, i, e in zip(LIFTS[:6], (51, 98, 139, 160, 166, 168), (40, 75, 99, 110, 113, 115))]
    return Book("scan.xlsx", [Sheet("scan", rows, [10, 10, 10])], "JT", "2011-05-03")
