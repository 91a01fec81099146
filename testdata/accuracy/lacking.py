"""Sheets that leave one needed fact out. Nothing on them may be used as if it
had been stated, and every one must raise a question or a refusal."""
import world
from job import ASKED, EITHER, not_reading
from paper import Val
from shapes import job, one_head, shape, simple_cols, simple_sheet, table
from table import Col, Table


def lack(j, *facts):
    j.book.lacks += facts
    return j.book


def hold(cols, fact):
    for c in cols:
        for v in c.cells:
            if v is not None and v.truth and v.truth.get("want") == "used":
                v.truth.update(want=ASKED, lacks=fact)


@shape("N01 no test pressure", 3)
def n01(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    cols, _, _ = simple_sheet(j, s, one_head(j), pressure=False)
    for c in cols[1:]:
        for v in c.cells:
            v.truth.update(want=ASKED, lacks="pressure", pressure_in=None, cfm_28=None)
    j.finish(s)
    return lack(j, "pressure")


@shape("N02 no flow unit", 3)
def n02(rng, name):
    j = job(rng, name)
    j.unit_at = "nowhere"
    j.style.pressure_unit, j.style.pressure = ("inH2O", 28) if j.lang == "en" else (j.style.pressure_unit, j.style.pressure)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    lifts = j.style.lifts(h.top)
    row = j.title(s, 1, head=h, unit=False)
    cols = simple_cols(j, h, lifts)
    hold(cols[1:], "flow unit")
    table(j, cols).lay(s, row, 1)
    j.margins(s)
    return lack(j, "flow unit")


@shape("N03 lifts 1 2 3 4 5 6 without a unit", 2)
def n03(rng, name):
    j = job(rng, name, lang="en", metric=False)
    j.style.lift_look = "unit"  # no unit in the header
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h)
    n = rng.randint(5, 7)
    # Flows low enough to be possible at millimetres too.
    said = [k / 25.4 for k in range(1, n + 1)]
    cols = [Col([j.style.word("lift")], [Val(k) for k in range(1, n + 1)])]
    for p in ("intake", "exhaust"):
        c = j.curve(h, p, said)
        for v in c:
            v.truth.update(want=ASKED, lacks="lift unit", lift_in=None, cfm_28=None)
        cols.append(Col([j.port_header(p)], c, j.unit()))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "lift unit")


@shape("N04 EV and no other word", 1)
def n04(rng, name):
    """EV is the intake valve in German and the exhaust valve in English."""
    j = job(rng, name, lang="en", metric=rng.random() < .5)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h)
    lift, said = j.lift_col(j.style.lifts(h.top))
    cols = [lift, Col([j.with_unit("EV")], j.curve(h, "intake", said), j.unit())]
    hold(cols[1:], "port")
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "port")


@shape("N05 third column without a header", 2)
def n05(rng, name):
    """The unnamed column is a port velocity; nothing says so."""
    j = job(rng, name, lang="en")
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h)
    both = j.some(.5)
    cols = simple_cols(j, h, j.style.lifts(h.top), ["intake", "exhaust"] if both else ["intake"])
    area = h.intake_peak / 118
    vals = [not_reading(Val(round(2.4 * v.truth["cfm_28"] / area)), "column without a header", want=ASKED) for v in cols[1].cells]
    cols.append(Col([None], vals))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "column")


@shape("N06 no head named", 1.5)
def n06(rng, name):
    j = job(rng, name)
    s = j.book.sheet("Sheet1")
    h = one_head(j)
    row = j.title(s, 1, bore=h.bore, noise=False)
    cols = simple_cols(j, h, j.style.lifts(h.top))
    hold(cols[1:], "head")
    table(j, cols).lay(s, row, 1)
    j.margins(s)
    return lack(j, "head")


@shape("N07 no port named", 1.5)
def n07(rng, name):
    j = job(rng, name, lang="en")
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h, unit=False)
    lift, said = j.lift_col(j.style.lifts(h.top))
    cols = [lift, Col([j.unit()], j.curve(h, "intake", said))]
    hold(cols[1:], "port")
    Table(cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "port")


@shape("N08 L/D without a valve size", 1)
def n08(rng, name):
    j = job(rng, name, lang="en", metric=False)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h)
    steps = [k / 20 for k in range(1, 7)]
    cols = [Col(["L/D"], [Val(x) for x in steps])]
    for p in ("intake", "exhaust"):
        cols.append(Col([j.port_header(p)], j.curve(h, p, [x * h.valve(p) for x in steps]), j.unit()))
    hold(cols[1:], "valve size")
    for c in cols[1:]:
        for v in c.cells:
            v.truth.update(lift_in=None, cfm_28=None)
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "valve size")


@shape("N09 percent of range without calibration", 1)
def n09(rng, name):
    j = job(rng, name, lang="en", metric=False)
    j.unit_at = "nowhere"
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h, unit=False)
    lift, said = j.lift_col(j.style.lifts(h.top))
    cols = [lift]
    for p in ("intake", "exhaust"):
        vals, rngs = [], []
        for v in j.curve(h, p, said):
            k = 1 + int(v.truth["cfm"] / 80)
            rngs.append(Val(k))
            vals.append(not_reading(Val(round(v.truth["cfm"] / (k * 80) * 100, 1)), "percent of an unknown range", want=ASKED))
        cols += [Col(["Rng"], rngs), Col([f"% {j.port_word(p)}"], vals)]
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    j.book.file = "bench/"
    return lack(j, "calibration")


@shape("N10 mass flow", 1)
def n10(rng, name):
    """kg/h and scfm need a density that nobody stated."""
    j = job(rng, name, lang=rng.choice(["en", "de"]))
    j.unit_at = "nowhere"
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h, unit=False)
    unit = rng.choice(["kg/h", "g/s", "scfm"])
    factor = {"kg/h": 2.04, "g/s": .566, "scfm": .98}[unit]
    lift, said = j.lift_col(j.style.lifts(h.top))
    cols = [lift]
    for p in ("intake", "exhaust"):
        vals = [not_reading(Val(round(v.truth["cfm"] * factor, 1)), "mass flow", want=ASKED) for v in j.curve(h, p, said)]
        cols.append(Col([f"{j.port_word(p)} {unit}"], vals))
    Table(cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "density")


@shape("N11 tab says one head, cell another", 1)
def n11(rng, name):
    j = job(rng, name, lang="en")
    a, b = world.heads(rng, 2)
    s = j.book.sheet(a.name)
    j.book.tab_speaks = True
    cols, _, _ = simple_sheet(j, s, b)
    hold(cols[1:], "head")
    j.finish(s)
    return lack(j, "head")


@shape("N12 corrected, to what is not said", 1)
def n12(rng, name):
    j = job(rng, name, lang="en", metric=False)
    j.style.digits = 1
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h, pressure=False)
    lift, said = j.lift_col(j.style.lifts(h.top))
    # The ratio is that of no known pair of pressures or units.
    ratio = rng.uniform(1.10, 1.15)
    c = j.curve(h, "intake", said, at=28, digits=1)
    raw = [not_reading(Val(round(v.truth["cfm"] / ratio, 1)), "observed column", want=ASKED) for v in c]
    for v in c:
        v.truth.update(want=ASKED, lacks="pressure", pressure_in=None, cfm_28=None)
    cols = [lift, Col([j.with_unit(j.port_word("intake") + " obs")], raw, j.unit()), Col([j.with_unit(j.port_word("intake") + " corr.")], c, j.unit())]
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "pressure")


@shape("N13 bare pressure of no custom", 1)
def n13(rng, name):
    """25 may be inches of water or mbar, 7 kPa or inches."""
    j = job(rng, name, lang="en", metric=False)
    j.style.pressure = rng.choice([25, 7, 60])
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h, pressure=False, extra=[("Test pressure", j.style.pressure, f"TP {j.style.pressure}")])
    cols = simple_cols(j, h, j.style.lifts(h.top))
    for c in cols[1:]:
        for v in c.cells:
            v.truth.update(want=ASKED, lacks="pressure", pressure_in=None, cfm_28=None)
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "pressure")


@shape("N14 raw manometers", 1)
def n14(rng, name):
    j = job(rng, name, lang="en", metric=False)
    j.unit_at = "nowhere"
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h, unit=False)
    lift, said = j.lift_col(j.style.lifts(h.top))
    c = j.curve(h, "intake", said)
    dp = [not_reading(Val(round(8.0 * (v.truth["cfm"] / 250) ** 2, 2)), "manometer", want=ASKED) for v in c]
    cols = [lift, Col(["Test dep. in H2O"], [Val(28) for _ in c]), Col(["Int orifice dp in H2O"], dp), Col(["Orifice in"], [Val(2.0) for _ in c])]
    Table(cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "bench constants")


@shape("N15 lifts of two kinds in one list", 1)
def n15(rng, name):
    j = job(rng, name, lang="en", metric=False)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h)
    j.style.lift, j.style.lift_look = "inch", "number"
    lifts = [.1, .2, .3, .4, .5]
    cells = [Val(x) for x in lifts[:2]] + [Val(x) for x in (3, 400, 5)]
    cols = [Col([j.style.word("lift")], cells)]
    for p in ("intake", "exhaust"):
        cols.append(Col([j.port_header(p)], j.curve(h, p, lifts), j.unit()))
    for c in cols[1:]:
        for k, v in enumerate(c.cells):
            v.truth.update(want=EITHER if k < 2 else ASKED, lacks="lift unit")
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "lift unit")


@shape("N16 columns A and B, no port", 0.5)
def n16(rng, name):
    """Two flow columns headed A and B: nobody says which port they are."""
    j = job(rng, name, lang="en")
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, 1, head=h, unit=True)
    lift, said = j.lift_col(j.style.lifts(h.top))
    cols = [lift, Col(["A"], j.curve(h, "intake", said)), Col(["B"], j.curve(h, "exhaust", said))]
    hold(cols[1:], "port")
    Table(cols).lay(s, row, 1)
    j.finish(s)
    return lack(j, "port")
