"""Shop setup.xlsx of the demo shop: title in row 1, explanation in row 2, headers in row 4, data from row 5."""
from sheet import Book, CENTS, Cell, Sheet, day, head, lift, title


def page(name, says, explains, headers, rows, widths):
    return Sheet(name, [[title(says)], [explains], [], head(*headers, wrap=True), *rows], widths,
                 freeze="B5", heights={4: 32})


def bore(inches):
    return Cell(inches, "0.000")


SHOP = [
    ["Shop name", "Saltmarsh Head & Machine", None, "Printed on what goes to customers and suppliers."],
    ["Phone", "555-0142", None, "Printed on the customer's sheet."],
    ["Currency", "USD", None, "The money every price is shown in."],
    ["Reference test pressure", 28, "inH2O", "Every flow is brought to this pressure."],
    ["Repeatability", 1, "%", "How well the bench repeats; differences inside it are a tie."],
    ["Smallest difference that counts", 2, "cfm", "A drop, dip or rise below this is the bench, not the head."],
    ["Stall span", .100, "in", "The lift over which a curve must stay flat to be called levelled off."],
    ["Casting spread per port", 1, "%", "How much two castings differ, for one port tested."],
    ["Lift zero uncertainty", .002, "in", "How well the lift screw's zero is known."],
    ["Tie until", 95, "%", "Two heads share a place until one is better with this certainty."],
    ["Same bore class within", .070, "in", "A test this close to the family's reference bore is used as it is."],
    ["Target margin", 25, "%", "Of the sale; used when a head has no sell price yet."],
    ["Default freight a head", 0, "USD", "Used when neither the list nor the supplier's row says; blank = none, ask."],
    ["Labour rate an hour", 45, "USD", "What an hour of our own work costs us; hours of the rework menu count at it."],
    ["Bench day flagged above", 1, "%", "Check plate off by more: that day's tests are flagged."],
    ["Bench day held above", 2, "%", "Check plate off by more: that day's tests are held."],
    ["Leak limit", 3, "cfm", "A leak above this is flagged."],
    ["Convert pressure by", "square root", None, "Flow goes with the square root of the test pressure."],
    ["Estimate flow at another bore", "no", None, "yes or no; an estimate is always marked."],
    ["Months of supply called slow", 9, "months", "Stock that lasts longer is slow; with no sale in as long, dead."],
    ["Safety stock", 1.5, "months", "Kept beyond the demand in the lead time."],
    ["Minimum margin", 15, "%", "Of the sale; a price that leaves less is flagged."],
    ["Prices end", "none", None, "How the prices end that are suggested; one that is set stays as it is."],
    ["Quote stands for", 30, "days", "How long the prices on a customer's sheet stand."],
    ["Paper", "letter", None, "What the workbooks are printed on."],
]

FAMILY_HEADERS = (
    "Family", "Heads a set", "Reference bore", "Engine bore", "Engine stroke", "Cylinders", "Engine rpm", "Range from",
    "Range to", "Band from", "Band to", "Worth of a cfm", "Base head", "Mid-lift low", "Mid-lift high", "Peak low",
    "Peak high", "Weight mid-lift", "Weight stall", "Weight peak", "Lazy below ft/s", "Choked above ft/s",
    "Cam lobe lift", "Rocker ratio", "Cam duration at .050", "Target power")
WEIGHTS_AND_SPEEDS = [.5, .3, .2, 500, 640]
NO_CAM = [None] * 4
FAMILIES = [
    ["Small Eight", 2, bore(4.030), bore(4.030), bore(3.250), 8, 6500, lift(.200), lift(.560), lift(.300), lift(.500),
     25, "LKC-07", 160, 260, 190, 300, *WEIGHTS_AND_SPEEDS, lift(.350), 1.6, 236, 450],
    ["Large Eight", 2, bore(4.310), bore(4.310), bore(4.000), 8, 6800, lift(.200), lift(.700), lift(.350), lift(.600),
     40, "LKC-41", 200, 360, 250, 400, *WEIGHTS_AND_SPEEDS, *NO_CAM],
    ["Opposed Four", 4, "96 mm", "96 mm", "80 mm", 4, 5500, lift(.100), lift(.433), lift(.200), lift(.350),
     60, "LKC-90", 90, 160, 120, 180, *WEIGHTS_AND_SPEEDS, *NO_CAM],
]

HEADS = [
    ["LKC-07", "Small Eight", "Larkmoor", "LKC07"],
    ["LKC-12", "Small Eight", "Larkmoor", "LKC12"],
    ["PW-31", "Small Eight", "Pellworth", "PW31"],
    ["PW-33", "Small Eight", "Pellworth", "PW33"],
    ["OB-4", "Small Eight", "Oastbridge", "OB4"],
    ["VR-81", "Small Eight", "Vintner", "VR81"],
    ["VR-84", "Small Eight", "Vintner", "VR84"],
    ["LKC-41", "Large Eight", "Larkmoor", "LKC41"],
    ["PW-46", "Large Eight", "Pellworth", "PW46"],
    ["OB-44", "Large Eight", "Oastbridge", "OB44"],
    ["VR-49", "Large Eight", "Vintner", "VR49"],
    ["TD-22", "Opposed Four", "Tidewell", "TD22"],
    ["TD-26", "Opposed Four", "Tidewell", "TD26"],
    ["LKC-90", "Opposed Four", "Larkmoor", "LKC90"],
]

# A list that states a thing itself needs no word here; Vintner's mail does not say that its prices are net.
SUPPLIERS = [
    ["Larkmoor", None, None, None, None, None, None, "Larkmoor Castings; their list says net each, freight in"],
    ["Pellworth", None, None, None, None, None, None, "Pellworth Foundry; list per pair, dealers less 40 %, freight $28 on the list"],
    ["Oastbridge", None, None, None, None, None, None, "Oastbridge Machine; their list says net each, freight $35"],
    ["Vintner", "net", None, None, None, None, None, "Vintner Road Heads; quotes by mail, each, freight in the mail"],
    ["Tidewell", None, None, None, None, None, None, "Tidewell Zylinderkopfbau; net each in EUR, freight on the list"],
]

BENCHES = [
    ["Saltmarsh shop bench", "own", "linear in flow", "own plate, clay radius", "1-3/4 x 12 in",
     "4.030, 4.250, 4.310, 4.500, 96 mm", "bench", "shop-built; holds 28 inH2O up to about 360 cfm, then sags"],
    ["Pellworth test room", "Pellworth", None, "radius plate", "2 in", "4.125, 4.155, 4.600", None, None],
    ["Tidewell bench", "Tidewell", None, "Einlauftrichter", "45 x 300 mm", "96 mm", None, "60 mbar"],
]


def shop_setup():
    sheets = [
        page("Shop", "Shop setup", "What holds for the whole shop. Change the Value column only.",
             ("Setting", "Value", "Unit", "What it does"), SHOP, [32, 26, 10, 72]),
        page("Families", "Engine families", "One row a family. Lengths in inches unless mm is written; worth in dollars a set.",
             FAMILY_HEADERS, FAMILIES, [15] + [11] * 25),
        page("Heads", "Heads", "One row a head: its family, who makes it, what else it is called (semicolons between).",
             ("Head", "Family", "Supplier", "Also called"), HEADS, [12, 15, 15, 24]),
        page("Suppliers", "Suppliers", "What a supplier's list leaves unsaid. Our cost is: list, jobber, dealer or net. Blank = the list says it.",
             ("Supplier", "Our cost is", "Discount chain", "Freight a head", "Currency", "Price basis", "Books in folder", "Note"),
             SUPPLIERS, [15, 12, 15, 15, 10, 12, 16, 70]),
        page("Benches", "Benches", "Owner: own, or the supplier's name. Books below the named folder come from the bench.",
             ("Bench", "Owner", "Range scale", "Intake entry", "Exhaust pipe", "Fixtures", "Books in folder", "Note"),
             BENCHES, [24, 12, 16, 24, 16, 34, 16, 58]),
        page("Rates", "Exchange rates", "One unit of the currency in USD, and since when.",
             ("Currency", "One unit in USD", "As of"), [["EUR", Cell(1.09, CENTS), day("2026-02-02")]], [12, 16, 14]),
        page("Words", "Words", "What a sender means by a word of his own. Empty until somebody needs it.",
             ("Sender", "Word", "Means"), [], [20, 20, 40]),
    ]
    return Book("Shop setup.xlsx", sheets, "Saltmarsh", "2026-01-05")
