"""Workbooks that have nothing to do with cylinder heads. None may yield a head
test, a price or a stock line."""
import datetime
import random

import writers
from paper import Book

MAKERS = []


def maker(f):
    MAKERS.append(f)
    return f


def grid(s, rows, row=1, col=1):
    for r, line in enumerate(rows):
        for c, v in enumerate(line):
            if v is not None:
                s.put(row + r, col + c, v)


MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]


@maker
def budget(rng, b):
    s = b.sheet("Budget 2026")
    rows = [["Household budget"], [], ["Item"] + MONTHS + ["Total"]]
    for item in ["Rent", "Food", "Power", "Water", "Insurance", "Fuel", "Phone"]:
        xs = [round(rng.uniform(20, 900), 2) for _ in MONTHS]
        rows.append([item] + xs + [round(sum(xs), 2)])
    grid(s, rows)


@maker
def timetable(rng, b):
    s = b.sheet("Timetable")
    grid(s, [["Bus 14", "depart from the harbour"], ["Stop", "1", "2", "3", "4", "5"]] +
         [[stop] + [f"{6 + k}:{rng.randint(0, 59):02d}" for k in range(5)] for stop in ["Harbour", "Mill", "School", "Church", "Station"]])


@maker
def grades(rng, b):
    s = b.sheet("Grades")
    grid(s, [["Class 4B", "spring term"], ["Pupil", "Test 1", "Test 2", "Test 3", "Avg"]] +
         [[n] + [rng.randint(40, 100) for _ in range(3)] + [rng.randint(40, 100)] for n in ["Ada", "Ben", "Cleo", "Dov", "Elif", "Finn", "Gus"]])


@maker
def inventory(rng, b):
    s = b.sheet("Stock")
    grid(s, [["Garden centre stock"], ["Item", "On hand", "On order", "Cost", "Sell"]] +
         [[n, rng.randint(0, 90), rng.randint(0, 20), round(rng.uniform(1, 30), 2), round(rng.uniform(31, 60), 2)]
          for n in ["Spade", "Rake", "Hose 25 m", "Rose, red", "Fern", "Compost 40 l", "Pot 20 cm"]])


@maker
def weather(rng, b):
    s = b.sheet("Weather")
    grid(s, [["Weather station", "pressure in mbar"], ["Date", "Min C", "Max C", "Avg C", "Pressure", "Rain mm"]] +
         [[datetime.date(2026, 1, d), rng.randint(-5, 3), rng.randint(4, 12), rng.randint(0, 8), rng.randint(985, 1030), round(rng.uniform(0, 20), 1)] for d in range(1, 25)])


@maker
def training(rng, b):
    """Columns 0.1 to 0.7: learning rates, not lifts."""
    s = b.sheet("Training log")
    grid(s, [["Run", "Epoch", "Test", "Loss"]] + [[k, k * 2, round(rng.uniform(60, 99), 1), round(1 / k, 3)] for k in range(1, 12)])
    grid(s, [["rate", "val 1", "val 2"]] + [[k / 10, round(rng.uniform(50, 250), 1), round(rng.uniform(50, 250), 1)] for k in range(1, 8)], 16)


@maker
def calibration(rng, b):
    s = b.sheet("Calibration")
    grid(s, [["Pressure gauge calibration", "S/N 4471"], ["Applied", "Up", "Down", "Error %"]] +
         [[round(k / 10, 1), round(k / 10 + rng.uniform(-.01, .01), 3), round(k / 10 + rng.uniform(-.01, .01), 3), round(rng.uniform(-.5, .5), 2)] for k in range(1, 11)])


@maker
def other_prices(rng, b):
    s = b.sheet("Prices")
    grid(s, [["Bakery price list", "valid from 1 March 2026"], ["Article", "Price ea", "Price per 10"]] +
         [[n, round(rng.uniform(1, 9), 2), round(rng.uniform(9, 80), 2)] for n in ["Rye loaf", "White loaf", "Roll", "Seed bun", "Cake, plum", "Tart"]])


@maker
def pivot(rng, b):
    s = b.sheet("Pivot")
    grid(s, [["Sum of Amount", "Column Labels"], ["Row Labels"] + ["East", "West", "North", "Grand Total"]] +
         [[n] + [rng.randint(100, 400) for _ in range(4)] for n in ["2023", "2024", "2025", "Grand Total"]])


@maker
def gym(rng, b):
    s = b.sheet("Lifts")
    grid(s, [["Training plan"], ["Lift", "Set 1", "Set 2", "Set 3", "Max"]] +
         [[n] + [rng.randint(40, 120) for _ in range(4)] for n in ["Squat", "Bench", "Deadlift", "Press", "Row"]])


@maker
def pump(rng, b):
    """A pump's curve: head against flow, neither of them ours."""
    s = b.sheet("Pump curve")
    grid(s, [["Pump P-12", "1450 rpm"], ["Flow m3/h", "Head m", "Efficiency %", "Power kW"]] +
         [[k * 20, round(40 - k * k * .3, 1), rng.randint(40, 80), round(2 + k * .4, 1)] for k in range(1, 9)])


@maker
def ducts(rng, b):
    """Air flow of a building in cfm."""
    s = b.sheet("Ventilation")
    grid(s, [["Air balance report", "Unit AH-3"], ["Room", "Supply cfm", "Return cfm", "Exhaust cfm"]] +
         [[f"Room {100 + k}", rng.randint(80, 400), rng.randint(60, 300), rng.choice([0, rng.randint(50, 150)])] for k in range(1, 12)])


@maker
def elevator(rng, b):
    s = b.sheet("Lift service")
    grid(s, [["Lift", "Inspected", "Load kg", "Trips"]] + [[k, datetime.date(2026, 2, k), rng.randint(300, 900), rng.randint(1000, 9000)] for k in range(1, 8)])


@maker
def lab(rng, b):
    s = b.sheet("Absorption")
    grid(s, [["Absorption series", "sample AB-12", "600 nm"], ["conc.", "Run 1", "Run 2", "Run 3", "Avg"]] +
         [[round(k * .05, 2)] + [round(k * 30 + rng.uniform(-3, 3), 1) for _ in range(4)] for k in range(1, 11)])


@maker
def survey(rng, b):
    s = b.sheet("Survey")
    grid(s, [["Question", "1", "2", "3", "4", "5", "n"]] + [[f"Q{k}"] + [rng.randint(0, 90) for _ in range(6)] for k in range(1, 14)])


@maker
def engine_dyno(rng, b):
    """An engine's power run: our neighbour's sheet, not a flow test."""
    s = b.sheet("Dyno")
    grid(s, [["331 engine", "dyno pull 3"], ["RPM", "Torque", "HP", "AFR", "Oil psi"]] +
         [[r, rng.randint(340, 430), rng.randint(200, 480), round(rng.uniform(12, 13.5), 1), rng.randint(50, 65)] for r in range(3000, 7000, 500)])


@maker
def cam_card(rng, b):
    s = b.sheet("Cam card")
    grid(s, [["Cam 14", "hyd. roller"], ["", "Intake", "Exhaust"], ["Lift", .560, .572], ["Lobe lift", .350, .3575], ["Duration .050", 236, 242],
             ["Duration adv.", 288, 294], ["Lash", 0, 0], ["Centreline", 106, 114]])


@maker
def springs(rng, b):
    s = b.sheet("Spring test")
    grid(s, [["Spring tester log"], ["Height in", "Load lb 1", "Load lb 2", "Load lb 3"]] +
         [[round(1.9 - k * .1, 2)] + [round(120 + k * 42 + rng.uniform(-3, 3)) for _ in range(3)] for k in range(0, 8)])


@maker
def prose(rng, b):
    s = b.sheet("Minutes")
    grid(s, [["Minutes of the meeting of 3/12"], ["Present: all"], ["1. The roof needs 28 sheets at 4.5 m"], ["2. The lift is out of order"], ["3. Intake of new members: 6"]])


@maker
def hours(rng, b):
    s = b.sheet("Hours")
    grid(s, [["Time sheet", "week 11"], ["Name", "Mon", "Tue", "Wed", "Thu", "Fri", "Total"]] +
         [[n] + [rng.choice([0, 4, 7.5, 8]) for _ in range(5)] + [rng.randint(20, 40)] for n in ["JT", "MK", "PB", "Dale"]])


@maker
def dose(rng, b):
    """0.100 to 0.600 down, two numeric columns across, with units that are not ours."""
    s = b.sheet("Sheet1")
    grid(s, [["Diode 7", "at 28 C"], ["V", "I mA", "P mW"]] + [[k / 10, round(k * 31.5 + rng.uniform(-3, 3), 1), round(k * k * 3.1, 1)] for k in range(1, 7)])


@maker
def bolts(rng, b):
    s = b.sheet("Fasteners")
    grid(s, [["Part", "Size", "On hand", "Price /100"]] + [[f"B{rng.randint(100, 999)}", rng.choice(["5/16", "3/8", "7/16", "1/2"]), rng.randint(0, 900), round(rng.uniform(4, 40), 2)] for _ in range(15)])


@maker
def empty(rng, b):
    b.sheet("Sheet1")
    b.sheet("Sheet2").put(3, 3, "")


@maker
def contacts(rng, b):
    s = b.sheet("Contacts")
    grid(s, [["Name", "Phone", "Town", "Note"]] + [[n, f"555-{rng.randint(100, 999):04d}", "Quayside", ""] for n in ["Larkmoor", "Pellworth", "Oastbridge", "Tidewell"]])


@maker
def carburettors(rng, b):
    """Rated in cfm and priced each, and no heads."""
    s = b.sheet("Carburettors")
    grid(s, [["Carburettor price list", "Eff. 3/1/2026"], ["Part no.", "Description", "cfm", "Price ea"]] +
         [[f"CB-{n}", f"carburettor {n} cfm, vacuum secondary", n, rng.randint(240, 900)] for n in (390, 500, 600, 650, 750, 850)])


@maker
def manifolds(rng, b):
    s = b.sheet("Manifolds")
    grid(s, [["Intake manifolds, dual plane"], ["Part", "Description", "List", "Jobber", "On hand"]] +
         [[f"MN-{k}", rng.choice(["intake manifold, idle-5500", "intake manifold, 1500-6500"]), rng.randint(250, 600), rng.randint(180, 240), rng.randint(0, 9)] for k in range(11, 19)])


@maker
def leakdown(rng, b):
    s = b.sheet("Leak-down")
    grid(s, [["Leak-down and compression", "331, customer 14"], ["Cyl", "Leak %", "Compression psi", "Plug"]] +
         [[k, rng.randint(3, 14), rng.randint(150, 190), rng.choice(["ok", "oily", "lean"])] for k in range(1, 9)])


@maker
def lobe(rng, b):
    """Cam lobe lift by degree, intake and exhaust, in inches."""
    s = b.sheet("Lobe lift")
    grid(s, [["Cam doctor", "cam 14"], ["Degree", "Intake lobe lift", "Exhaust lobe lift"]] +
         [[d, round(.35 * (1 - (d / 75) ** 2), 4), round(.357 * (1 - (d / 76) ** 2), 4)] for d in range(-70, 75, 10)])


@maker
def injectors(rng, b):
    s = b.sheet("Injector bench")
    grid(s, [["Injector flow test", "43.5 psi"], ["Injector", "Run 1 cc/min", "Run 2 cc/min", "Avg"]] +
         [[k, rng.randint(410, 430), rng.randint(410, 430), rng.randint(410, 430)] for k in range(1, 9)])


@maker
def crane(rng, b):
    """A lifting magnet: lift in mm against kg."""
    s = b.sheet("Magnet")
    grid(s, [["Lifting magnet test"], ["Lift mm", "Run 1 kg", "Run 2 kg"]] + [[k, round(300 / k), round(296 / k)] for k in range(1, 9)])


@maker
def tyres(rng, b):
    s = b.sheet("Tyres")
    grid(s, [["Tyre pressures", "psi"], ["Date", "LF", "RF", "LR", "RR"]] + [[datetime.date(2026, 2, k)] + [round(rng.uniform(26, 36), 1) for _ in range(4)] for k in range(1, 15)])


@maker
def duct_fan(rng, b):
    """A fan's curve: cfm against inches of water, as any catalogue prints it."""
    s = b.sheet("Fan data")
    grid(s, [["Fan model F-12", "static pressure in. w.g."], ["rpm", ".100", ".200", ".300", ".400", ".500"]] +
         [[r] + [rng.randint(100, 900) for _ in range(5)] for r in (800, 1000, 1200, 1400)])


@maker
def turbo(rng, b):
    s = b.sheet("Map")
    grid(s, [["Compressor map"], ["PR", "1.2", "1.4", "1.6", "1.8"]] + [[f"{k * 10} lb/min"] + [round(rng.uniform(.5, .78), 2) for _ in range(4)] for k in range(1, 7)])


def write_all(out, n, seed):
    """n books, each kind in turn, alternately by both writers."""
    paths = []
    for i in range(n):
        rng = random.Random(f"other/{seed}/{i}")
        b = Book("other", "en")
        MAKERS[i % len(MAKERS)](rng, b)
        for s in b.sheets:
            if rng.random() < .3:
                s.shift(rng.choice([1, 2]), rng.choice([0, 1]))
        if writers.fits_csv(b) and b.sheets[0].cells and rng.random() < .15:
            path = out / f"book {i:03d}.csv"
            writers.as_csv(b, path, ".", "utf-8")
        else:
            path = out / f"book {i:03d}.xlsx"
            (writers.with_openpyxl if i % 2 else writers.with_xlsxwriter)(b, path)
        paths.append(path)
    return paths
