"""Test pressures, units and bench exports."""
import math

from job import EITHER, not_reading
from paper import Val
from shapes import job, one_head, shape, simple_cols, simple_sheet, table
from spelling import plain
from table import Col


@shape("F18 lift as L/D", 1.5)
def f18(rng, name):
    j = job(rng, name, metric=False)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, j.letterhead(s), head=h, valves=True)
    steps = [k / 20 for k in range(1, rng.randint(6, 7) + 1)]
    word = rng.choice(["L/D", "Lift/Dia", "L/d", "Lift L/D"]) if j.lang == "en" else "L/D"
    cols = [Col([word], [Val(x, "0.00") for x in steps])]
    for p in ("intake", "exhaust"):
        cols.append(Col([j.port_header(p)], j.curve(h, p, [round(x * h.valve(p), 9) for x in steps]), j.unit()))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F19 zero-lift row", 1.5)
def f19(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, j.letterhead(s), head=h)
    cols = simple_cols(j, h, j.style.lifts(h.top))
    lift, _ = j.style.lift_val(0) if j.style.lift_look not in ("short",) else (Val(".000"), 0)
    cols[0].cells.insert(0, lift)
    zero = j.some(.4)
    for c in cols[1:]:
        v = Val(0 if zero else round(rng.uniform(.3, 2.4), 1))
        c.cells.insert(0, not_reading(v, "leak at zero lift", want="leak"))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F24 bench export", 3)
def f24(rng, name):
    j = job(rng, name, lang=rng.choice(["en"] * 4 + ["de"]))
    st = j.style
    s = j.book.sheet("export")
    h = one_head(j)
    text, said = st.bore_text(h.bore)
    unit = {"inH2O": "in H2O", "mbar": "mbar", "kPa": "kPa", "mmH2O": "mm H2O"}[st.pressure_unit]
    one_cell = j.some(.4)
    number = st.pressure if not one_cell else plain(st.pressure, 1, st.mark)
    keys = [(rng.choice(["Head", "Part", "Head ID"]), h.name), (f"Test Pressure ({unit})", number) if j.some(.5) else ("Test Pressure", f"{plain(st.pressure, 1, st.mark)} {unit}"),
            ("Bore", text), ("Flow Units", j.unit()), ("Leak", rng.choice([0.8, 1.2, 0.4])), ("Operator", "JT"), ("Date", "2026-03-02"),
            ("Temperature", "68 F"), ("Samples", 4)]
    keys = keys[:4] + [k for k in keys[4:] if j.some(.5)]
    rng.shuffle(keys)
    for i, (k, v) in enumerate(keys):
        if one_cell:
            s.put(1 + i, 1, f"{k}: {v}")
        else:
            s.put(1 + i, 1, rng.choice([k, k + ":"]))
            s.put(1 + i, 2, v)
    j.conditions = {"bore_in": said}
    cols = simple_cols(j, h, st.lifts(h.top))
    table(j, cols).lay(s, len(keys) + rng.randint(1, 3), 1)
    s.shift(0, 0)
    return j.book


RANGES = [40.2, 81.5, 160.8, 240.6, 322.0, 400.9]


@shape("F25 percent of range", 2)
def f25(rng, name):
    j = job(rng, name, lang="en", metric=False)
    j.unit_at = "title"
    st = j.style
    s = j.book.sheet(j.tab())
    h = one_head(j, "small")
    row = j.title(s, 1, head=h, unit=True)
    cal = {p: [round(x * rng.uniform(.98, 1.02), 1) for x in RANGES] for p in ("intake", "exhaust")}
    short = {"intake": "int", "exhaust": "exh"}
    for p in cal:
        if rng.random() < .5:
            s.put(row, 1, f"Range cal ({short[p]}): " + " ".join(f"{i + 1}={x}" for i, x in enumerate(cal[p])) + rng.choice(["", " cfm"]))
        else:
            s.put(row, 1, f"Range cal ({short[p]}) cfm")
            for i, x in enumerate(cal[p]):
                s.put(row, 2 + i, f"{i + 1}={x}")
        row += 1
    row += rng.randint(0, 1)
    lift, said = j.lift_col(st.lifts(h.top))
    cols = [lift]
    as_fraction = j.some(.2)
    for p in ("intake", "exhaust"):
        rng_cells, pct_cells = [], []
        for v in j.curve(h, p, said, digits=2):
            cfm = v.truth["cfm"]
            k = next(i for i, x in enumerate(cal[p]) if cfm < .93 * x)
            pct = round(100 * cfm / cal[p][k], 1)
            cfm = pct * cal[p][k] / 100
            t = dict(v.truth, cfm=cfm, cfm_28=cfm * math.sqrt(28 / v.truth["pressure_in"]))
            rng_cells.append(Val(k + 1))
            pct_cells.append(Val(pct / 100, "0.0%", truth=t) if as_fraction else Val(pct, truth=t))
        cols += [Col([rng.choice(["Rng", "Range"])], rng_cells), Col([f"% {j.port_word(p)}"], pct_cells)]
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    j.book.file = "bench/"  # the shop's own bench, whose scale the setup knows
    return j.book


# What the setup registers of the bench: cfm at 6 inH2O across each orifice. The
# flow goes with the square root of the differential (ISO 5167-1).
ORIFICES = {1.5: 90, 2.25: 200, 3: 360}


@shape("F26 manometers of registered orifices", 2)
def f26(rng, name):
    j = job(rng, name, lang="en", metric=False)
    st = j.style
    st.pressure = rng.choice([28, 28, 25])
    j.unit_at = "nowhere"
    s = j.book.sheet(j.tab())
    h = one_head(j, "small")
    by_row = j.some(.5)
    row = j.title(s, 1, head=h, unit=False, pressure=False,
                  extra=[] if by_row else [("Test pressure", f"{st.pressure} inH2O", f"test pressure {st.pressure} inH2O")])
    lift, said = j.lift_col(st.lifts(h.top))
    cols = [lift]
    if by_row:
        cols.append(Col([rng.choice(["Test dp inH2O", "TP in H2O", "Depression inH2O"])], [Val(st.pressure) for _ in said]))
    mbar = 2.4908891 if j.some(.3) else None
    for p in rng.choice([("intake",), ("intake", "exhaust")]):
        names, drops = [], []
        for v in j.curve(h, p, said, digits=2):
            size, full = next((d, q) for d, q in ORIFICES.items() if v.truth["cfm"] < q)
            drop = round(6 * (v.truth["cfm"] / full) ** 2 * (mbar or 1), 2)
            cfm = full * math.sqrt(drop / (mbar or 1) / 6)
            names.append(Val(size, rng.choice([None, "0.000"])))
            drops.append(Val(drop, truth=dict(v.truth, cfm=cfm, cfm_28=cfm * math.sqrt(28 / v.truth["pressure_in"]))))
        word = f"{j.port_word(p)} {rng.choice(['orifice dp', 'manometer', 'orifice diff'])} {'mbar' if mbar else 'inH2O'}"
        pair = [Col([rng.choice(["Orifice", "Orifice size", "Orifice dia"])], names), Col([word], drops)]
        cols += pair
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    j.book.file = "bench/"  # the shop's own bench, whose orifices the setup knows
    return j.book


@shape("F27 test pressure in each row", 2)
def f27(rng, name):
    j = job(rng, name, lang="en", metric=False)
    st = j.style
    s = j.book.sheet(j.tab())
    h = one_head(j)
    lifts = st.lifts(h.top)
    row = j.title(s, j.letterhead(s), head=h, pressure=False)
    kind = rng.choice(["held", "sagging, as read", "sagging, as read", "sagging, corrected", "sagging, not said"])
    lift, said = j.lift_col(lifts)
    n = len(said)
    held = [28.0] * n
    if kind != "held":
        for k in range(max(0, n - rng.randint(2, 4)), n):
            held[k] = held[k - 1] - rng.choice([1, 1.5, 2])
    tp = [Val(x) for x in held]
    ports = ["intake", "exhaust"] if j.some(.4) else ["intake"]
    cols = []
    for p in ports:
        if kind == "sagging, corrected":
            word = f"{j.port_word(p)} {rng.choice(['corrected to 28', 'corr. to 28 in'])}"
            word += f" {st.flow_unit_word()}" if j.unit_at == "header" else ""
            c = j.curve(h, p, said, at=28)
        else:
            word = j.port_header(p) + (rng.choice([" as read", " observed", ", uncorrected"]) if kind == "sagging, as read" else "")
            c = []
            parts = [j.curve(h, p, [x], at=at) for x, at in zip(said, held)]
            for part in parts:
                c += part
            for v in c:
                v.truth["series"] = c[0].truth["series"]
                if kind == "sagging, not said":
                    v.truth["want"] = EITHER
        cols.append(Col([word], c, j.unit()))
    head = rng.choice(["TP in H2O", 'Test press "', "TP", "Depression in H2O", 'H2O"'])
    at = rng.choice([1, len(cols) + 1])
    cols = [lift] + cols
    cols.insert(at, Col([head], tp, "in H2O" if j.unit_at == "units row" else None))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    j.book.why = kind
    return j.book


@shape("F28 whole sheet at another pressure", 2.5)
def f28(rng, name):
    j = job(rng, name, metric=False)
    j.style.pressure = rng.choice([10, 12, 15, 20, 25, 25, 36])
    j.style.digits = 1
    s = j.book.sheet(j.tab())
    simple_sheet(j, s, one_head(j))
    j.finish(s)
    return j.book


@shape("F29 two pressures on a sheet", 1.5)
def f29(rng, name):
    j = job(rng, name, lang="en", metric=False)
    st = j.style
    st.digits = 1
    s = j.book.sheet(j.tab())
    h = one_head(j)
    lifts = st.lifts(h.top)
    row = j.title(s, 1, head=h, pressure=False, noise=False)
    low = rng.choice([10, 12, 15, 20])
    if j.some(.5):
        for p in (low, 28):
            st.pressure = p
            s.put(row, 1, st.pressure_text(keyed=True))
            cols = simple_cols(j, h, lifts, ["intake", "exhaust"], want="used" if p == 28 else EITHER)
            table(j, cols).lay(s, row + 1, 1)
            row = s.end()[0] + rng.randint(2, 3)
    else:
        lift, said = j.lift_col(lifts)
        cols = [lift]
        for p in (low, 28):
            st.pressure = p
            text = st.pressure_text(keyed=True)
            for port in ("intake", "exhaust"):
                cols.append(Col([text, j.port_header(port)], j.curve(h, port, said, want="used" if p == 28 else EITHER), j.unit()))
        table(j, cols, top=rng.choice(["merged", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F30 observed and corrected", 2)
def f30(rng, name):
    j = job(rng, name, lang="en", metric=False)
    st = j.style
    st.digits = 1
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, j.letterhead(s), head=h, pressure=False)
    low = rng.choice([10, 12, 15, 20, 25])
    lift, said = j.lift_col(st.lifts(h.top))
    cols = [lift]
    obs, cor = rng.choice([(f'obs @ {low}"', 'corr. to 28"'), (f"as read @{low}", "corrected to 28"), (f'observed {low}"', 'corrected to 28" H2O')])
    for p in ("intake", "exhaust") if j.some(.5) else ("intake",):
        raw = [not_reading(v, "observed column") for v in j.curve(h, p, said, at=low)]
        cols.append(Col([j.with_unit(f"{j.port_word(p)} {obs}")], raw, j.unit()))
        cols.append(Col([j.with_unit(f"{j.port_word(p)} {cor}")], j.curve(h, p, said, at=28), j.unit()))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F31 metric sheet", 3)
def f31(rng, name):
    j = job(rng, name, lang=rng.choice(["de", "de", "de", "fr", "it", "es", "en"]), metric=True)
    s = j.book.sheet(j.tab())
    simple_sheet(j, s, one_head(j, "four"), facts={})
    j.finish(s)
    return j.book


@shape("F32 decimal commas", 2.5)
def f32(rng, name):
    j = job(rng, name, lang=rng.choice(["de", "fr", "it", "es"]), metric=j_metric(rng))
    j.style.mark, j.style.text, j.style.digits = ",", True, 1
    if j.style.lift == "inch":
        j.style.lift_look = rng.choice(["text", "zero", "quote"])
    elif j.style.lift == "mm":
        j.style.lift_look = rng.choice(["text", "unit"])
    s = j.book.sheet(j.tab())
    simple_sheet(j, s, one_head(j), table_how={"orient": "down"})
    j.finish(s)
    return j.book


def j_metric(rng):
    return rng.random() < .6


@shape("F56 languages", 2)
def f56(rng, name):
    j = job(rng, name, lang=rng.choice(["de", "fr", "it", "es"]))
    s = j.book.sheet(j.tab())
    simple_sheet(j, s, one_head(j), pipe=rng.choice(["with pipe", "no pipe", None]), valves=j.some(.3))
    j.finish(s)
    return j.book
