"""What the suppliers send: flow charts, the odd test, price lists."""
from figures import *
from sheet import Book, Cell, DOLLARS, LIFT, Sheet, banner, bold, day, head, ital, lift, money, title


def pellworth_chart():
    n = len(ADVERT_LIFTS)
    lifts = [Cell(at, LIFT, bold=True, fill=True) for at in ADVERT_LIFTS]
    rows = [
        [title("PELLWORTH FOUNDRY   Flow chart 2026*")],
        ["Published cfm at 28 inH2O, January 2026.  Bare port, radius plate."],
        [],
        [None, banner("INTAKE")] + [banner("")] * (n - 1) + [banner("EXHAUST")] + [banner("")] * (n - 1),
        head("Head") + lifts + lifts,
        [bold("SMALL EIGHT")],
        ["PW-31"] + PELLWORTH_INT["PW-31"] + PELLWORTH_EXH["PW-31"],
        ["PW-33"] + PELLWORTH_INT["PW-33"] + PELLWORTH_EXH["PW-33"],
        [bold("LARGE EIGHT")],
        ["PW-46"] + PELLWORTH_INT["PW-46"] + PELLWORTH_EXH["PW-46"],
        [],
        [ital("* 28in., 2 in. pipe; Small on 4.155 bore, Large on 4.600")],
    ]
    sheet = Sheet("Flow 2026", rows, [15] + [7] * 14, ["B4:H4", "I4:O4"], freeze="B6")
    return Book("Pellworth flow chart 2026.xlsx", [sheet], "Pellworth Foundry", "2026-01-05", "Arial")


def pellworth_wide_bore():
    rows = [
        [title("Pellworth Foundry test room   PW-33 on the 4.125 fixture")],
        ["Serial", "C1304", None, "Date", day("2025-12-04")],
        ["Bore", Cell(4.125, "0.000"), None, "Test pressure", "28 inH2O"],
        ["Entry", "radius plate, bare port", None, "Pipe", "none (intake only, exhaust not flowed)"],
        ["You asked what the bore is worth: here is the head you have, pulled on 4.125. A test, not a chart figure."],
        [],
        head("Lift", "Intake cfm"),
    ]
    rows += [[lift(at), v] for at, v in zip(LIFTS, PW33_ON_4125)]
    sheet = Sheet("PW-33", rows, [9, 24, 3, 14, 36])
    return Book("Pellworth PW-33 on 4.125.xlsx", [sheet], "Pellworth Foundry", "2025-12-04", "Arial")


def larkmoor_flow():
    rows = [
        [title("Larkmoor Castings   published flow, intake")],
        ["cfm at 28 inH2O, radiused entry, no manifold.  Edition 2025-10-01."],
        ["LKC-07 and LKC-12 on 4.030 bore, LKC-41 on 4.310 bore.  Exhaust not published."],
        [],
        head("Intake cfm @28") + [Cell(at, LIFT, bold=True, fill=True) for at in LARKMOOR_LIFTS],
    ]
    rows += [[name] + values for name, values in LARKMOOR_INT.items()]
    return Book("Larkmoor flow.xlsx", [Sheet("Flow", rows, [18] + [8] * 6)], "Larkmoor Castings", "2025-10-01")


def oastbridge_flow():
    rows = [[title("Oastbridge Machine   advertised flow")],
            ["Intake only, cfm at 28 inH2O, radius plate, no manifold.  2025-11-10"]]
    for name, bore in (("OB-4", "4.030"), ("OB-44", "4.310")):
        rows += [[], [], [bold(f"{name}   {bore} bore")], head("Lift", "Intake")]
        rows += [[lift(at), v] for at, v in zip(*OASTBRIDGE_INT[name])]
    rows.append([ital("OB-44: the long port is the one shown.")])
    return Book("Oastbridge flow.xlsx", [Sheet("Flow", rows, [12, 10])], "Oastbridge Machine", "2025-11-10")


def vintner_flow():
    rows = [
        [title("Vintner Road Heads   claimed flow")],
        ["As cast, as we ship them.  Bare port, radiused entry.  2025-12-01"],
        [],
        head("Head", "Port", "Bore in", "TP inH2O", "Lift in", "CFM"),
    ]
    for name, (bore, lifts, values) in VINTNER_INT.items():
        rows += [[name, "Intake", Cell(bore, "0.000"), 28, lift(at), v] for at, v in zip(lifts, values)]
    return Book("Vintner flow.xlsx", [Sheet("Flow", rows, [10, 10, 10, 11, 10, 8], freeze="A5")],
                "Vintner Road Heads", "2025-12-01", "Liberation Sans")


def tidewell_flow():
    rows = [
        [title("Tidewell Zylinderkopfbau   Messblatt")],
        ["60 mbar, Bohrung 96"],
        ["Einlass mit Einlauftrichter, ohne Saugrohr; Auslass mit Rohr 45 x 300"],
        ["Datum 2025-11-18   KW"],
        [],
    ]
    for name, serial, intake, exh in (("TD-22", "2231", TD22_INT, TD22_EXH), ("TD-26", "2604", TD26_INT, TD26_EXH)):
        rows += [[bold(f"{name}   Nr. {serial}")], head("Hub mm", "Einlass l/s", "Auslass l/s")]
        rows += [[hub, i, e] for hub, i, e in zip(TD_HUB, intake, exh)]
        rows += [[], []]
    return Book("Tidewell Messblatt.xlsx", [Sheet("Messblatt", rows[:-2], [14, 13, 13])], "KW", "2025-11-18",
                "Liberation Sans")


def larkmoor_prices():
    rows = [
        [title("Larkmoor Castings   prices effective 2026-01-01")],
        ["Net each, assembled, USD.  Freight in, unless a figure is shown."],
        [],
        head("Part", "Description", "Net each, assembled $", "Freight each $"),
        [bold("SMALL EIGHT")],
        ["LKC-07", "iron, 76 cc chamber", money(268), "in"],
        ["LKC-12", "aluminium, 64 cc chamber", money(452), "in"],
        [bold("LARGE EIGHT")],
        ["LKC-41", "iron, 110 cc chamber", money(410), money(19)],
        [bold("OPPOSED FOUR")],
        ["LKC-90", "aluminium, 45 cc chamber", money(178), "in"],
    ]
    return Book("Larkmoor prices.xlsx", [Sheet("Prices", rows, [16, 28, 23, 16])], "Larkmoor Castings", "2025-12-15")


def pellworth_list(path, effective, saved, prices):
    rows = [
        [title("PELLWORTH FOUNDRY   Price list"), None, bold(effective)],
        ["List price per pair, assembled, USD.  Dealers less 40 %.  Freight $28 per head."],
        [],
        head("Part No.", "Description", "List, per pair $"),
        [bold("SMALL EIGHT")],
        ["PW-31", "195 cc, assembled", Cell(prices[0], DOLLARS)],
        ["PW-33", "220 cc, assembled", Cell(prices[1], DOLLARS)],
        [bold("LARGE EIGHT")],
        ["PW-46", "320 cc, assembled", Cell(prices[2], DOLLARS)],
    ]
    return Book(path, [Sheet("List", rows, [18, 24, 24])], "Pellworth Foundry", saved, "Arial")


def oastbridge_prices():
    rows = [
        [title("Oastbridge Machine   dealer net, effective 2026-02-20")],
        ["Net ea, assembled, USD.  Freight $35 per head is added."],
        [],
        head("Item", "Net ea", "Freight per head"),
        ["OB-4", money(905), money(35)],
        ["OB-44", money(1695), money(35)],
    ]
    return Book("Oastbridge net.xlsx", [Sheet("Net", rows, [12, 14, 18])], "Oastbridge Machine", "2026-02-16")


def vintner_email():
    rows = [
        ["From:", "Vintner Road Heads"],
        ["To:", "Saltmarsh Head & Machine"],
        ["Date:", "2026-02-02"],
        ["Subject:", "prices"],
        [],
        ["all ea, assembled: VR-81 $430, VR-84 $372, VR-49 $985, frt 24"],
    ]
    return Book("Vintner email.xlsx", [Sheet("Sheet1", rows, [10, 40])], "JT", "2026-02-02", "Liberation Sans")


def tidewell_prices():
    rows = [
        [title("Tidewell Zylinderkopfbau   Preisliste"), None, "gültig ab 2026-01-01"],
        ["Händlerpreise netto je Stück, komplett montiert, in EUR.  Freight $19 per head."],
        [],
        head("Artikel", "Bezeichnung", "Preis EUR je Stück"),
        ["TD-22", "Zylinderkopf 44/37", "189,00"],
        ["TD-26", "Zylinderkopf 46/38", "236,00"],
    ]
    return Book("Tidewell EUR.xlsx", [Sheet("Preise", rows, [14, 26, 22])], "KW", "2025-12-19", "Liberation Sans")


PELLWORTH_FEBRUARY = ("Pellworth list Feb.xlsx", "Effective 2026-02-01", "2026-01-28", (1354, 1655, 2877))
PELLWORTH_COMING = ("Pellworth list 4-1.xlsx", "Eff. 4/1", "2026-03-09", (1396, 1706, 2966))
