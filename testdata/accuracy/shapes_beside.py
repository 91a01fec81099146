"""Numbers that stand among the readings and are none."""
import world
from job import not_reading, shown
from paper import Val
from shapes import job, one_head, shape, simple_cols, summary, table
from table import Col


@shape("F21 summary rows", 3)
def f21(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, j.letterhead(s), head=h)
    cols = simple_cols(j, h, j.style.lifts(h.top))
    rows = [(j.word("peak"), max, False), (j.word("avg"), lambda xs: sum(xs) / len(xs), False), (j.word("total"), sum, False)]
    if j.lang == "en":
        rows += [("Ave .2-.6", lambda xs: sum(xs[1:]) / len(xs[1:]), False), (None, sum, True), (None, lambda xs: sum(xs) / len(xs), True)]
    for word, rule, blank in rng.sample(rows, rng.randint(1, 2)):
        summary(j, word, cols, rule, blank)
        if blank:
            break  # a nameless last row is told by the readings above it
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F22 difference columns", 2)
def f22(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    heads = world.heads(rng, 2)
    row = j.title(s, 1, bore=heads[0].bore, noise=False)
    lift, said = j.lift_col(j.style.lifts(min(h.top for h in heads)))
    cols = [lift]
    port = rng.choice(["intake", "exhaust"])
    ab = []
    for h in heads:
        ab.append(j.curve(h, port, said))
        cols.append(Col([h.name, j.port_header(port)], ab[-1], j.unit()))
    percent = j.some(.3)
    diff = []
    for a, b in zip(*ab):
        d = shown(b) - shown(a)
        v = Val(round(100 * d / shown(a), 1)) if percent else Val(round(d, 1) if not j.some(.3) else f"{d:+.0f}")
        diff.append(not_reading(v, "difference column"))
    cols.append(Col([None, "%" if percent else j.word("gain")], diff))
    table(j, cols, top=rng.choice(["merged", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F23 columns that look like flow", 2)
def f23(rng, name):
    j = job(rng, name, lang="en")
    j.unit_at = rng.choice(["header", "header", "units row"])
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, j.letterhead(s), head=h)
    cols = simple_cols(j, h, j.style.lifts(h.top))
    area = h.intake_peak / 115
    kinds = [("Velocity ft/s", lambda x, c: 2.4 * c / area), ("Port speed fps", lambda x, c: 2.4 * c / area), ("Swirl rpm", lambda x, c: 900 * x),
             ("cfm/sq in", lambda x, c: c / 3.1), ("HP potential", lambda x, c: 2.06 * c), ("Ex/In %", lambda x, c: 74),
             ("E/I", lambda x, c: 74), ("Curtain area", lambda x, c: 6.3 * x)]
    for word, rule in rng.sample(kinds, rng.randint(1, 2)):
        at = rng.choice([len(cols), len(cols), 2])
        unit = None if j.unit_at == "header" else ""
        vals = [not_reading(Val(round(rule(v.truth["lift_in"], v.truth["cfm_28"]), 1)), word) for v in cols[1].cells]
        cols.insert(at, Col([word], vals, unit or None))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book
