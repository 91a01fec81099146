"""More than one column for one port: cylinders, handed ports, runs, stages,
samples, bores, pipes, adverts."""
import world
from job import EITHER, mark, not_reading, number_like, shown
from paper import Val
from shapes import job, one_head, shape, simple_cols, table
from table import Col


def means(j, curves, why):
    """A column of averages that the sheet gives beside the readings."""
    digits = j.rng.choice([0, 1, 1])
    return [not_reading(number_like(j, sum(shown(v) for v in vs) / len(vs), digits), why) for vs in zip(*curves)]


def start(rng, name, **how):
    j = job(rng, name, **how)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    return j, s, h


@shape("F12 cylinders across", 3)
def f12(rng, name):
    j, s, h = start(rng, name)
    lifts = j.style.lifts(h.top)
    marks = rng.choice([["1", "3"], ["1", "3", "5", "7"], ["2", "4"], ["1", "2", "3", "4"]])
    cyl = j.word("cyl")
    banner = rng.choice(["title", "banner", "in header"])
    port = "intake" if banner != "title" or j.some(.8) else "exhaust"
    row = j.title(s, j.letterhead(s), head=h, port=port if banner == "title" else None)
    lift, said = j.lift_col(lifts)
    cols = [lift]
    ports = ["intake", "exhaust"] if banner == "banner" and j.some(.5) else [port]
    for p in ports:
        curves = [j.curve(h, p, said, factor=1 - .012 * rng.random(), mark=m) for m in marks]
        for m, c in zip(marks, curves):
            word = f"#{m}" if cyl == "#" else f"{cyl} {m}"
            if banner == "in header":
                word = rng.choice([f"{j.port_word(p)} #{m}", f"{j.port_word(p)} {cyl if cyl != '#' else ''}{m}".replace("  ", " ")]) if cyl == "#" else f"{j.port_word(p)} {word}"
            cols.append(Col([j.port_word(p), j.with_unit(word)] if banner == "banner" else [j.with_unit(word)], c, j.unit()))
        if j.some(.6):
            avg = j.word("avg")
            heads = [j.port_word(p), avg] if banner == "banner" else [avg]
            cols.append(Col(heads, means(j, curves, "average of the columns beside it"), j.unit()))
    if banner == "in header" and j.some(.5):
        cols.append(Col([j.port_header("exhaust")], j.curve(h, "exhaust", said), j.unit()))
    table(j, cols, top=rng.choice(["merged", "first"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F13 handed ports", 2)
def f13(rng, name):
    j, s, h = start(rng, name, lang="en", metric=False)
    lifts = j.style.lifts(h.top)
    row = j.title(s, j.letterhead(s), head=h)
    a, b = rng.choice([("long", "short"), ("left", "right"), ("A", "B")])
    lift, said = j.lift_col(lifts)
    cols = [lift]
    two_rows = j.some(.4)
    for m, f in ((a, 1), (b, .965)):
        heads = [j.port_word("intake"), j.with_unit(m.capitalize())] if two_rows else [j.with_unit(f"{j.port_word('intake')} {m}")]
        cols.append(Col(heads, j.curve(h, "intake", said, factor=f, mark=m), j.unit()))
    if j.some(.7):
        heads = [None, j.port_header("exhaust")] if two_rows else [j.port_header("exhaust")]
        cols.append(Col(heads, j.curve(h, "exhaust", said), j.unit()))
    table(j, cols, top=rng.choice(["merged", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F14 repeat runs", 2.5)
def f14(rng, name):
    j, s, h = start(rng, name)
    lifts = j.style.lifts(h.top)
    n, word = rng.choice([2, 3, 3]), j.word("run")
    both = j.some(.4)
    row = j.title(s, j.letterhead(s), head=h, port=None if both else "intake")
    lift, said = j.lift_col(lifts)
    cols = [lift]
    for p in ("intake", "exhaust") if both else ("intake",):
        curves = [j.curve(h, p, said, run=str(k + 1)) for k in range(n)]
        for k, c in enumerate(curves):
            w = j.with_unit(f"{word} {k + 1}")
            cols.append(Col([j.port_word(p), w] if both else [w], c, j.unit()))
        if j.some(.5):
            avg = j.word("avg")
            cols.append(Col([j.port_word(p), avg] if both else [avg], means(j, curves, "mean of the runs"), j.unit()))
    table(j, cols, top=rng.choice(["merged", "first", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F15 min, max and average", 2)
def f15(rng, name):
    j, s, h = start(rng, name)
    lifts = j.style.lifts(h.top)
    over = j.some(.6) and j.lang == "en"
    row = j.title(s, j.letterhead(s), head=h, port="intake")
    if over:
        s.put(row, 1, rng.choice(["min/max/avg of 4 cylinders", "min, max and average over 8 ports", "min max avg of 3 runs"]))
        row += 1
    lift, said = j.lift_col(lifts)
    avg = j.curve(h, "intake", said, want="used" if over else EITHER)
    lo = [not_reading(number_like(j, shown(v) * .985), "minimum") for v in avg]
    hi = [not_reading(number_like(j, shown(v) * 1.012), "maximum") for v in avg]
    cols = [Col([j.with_unit(j.word("minimum"))], lo, j.unit()), Col([j.with_unit(j.word("maximum"))], hi, j.unit()),
            Col([j.with_unit(j.word("avg"))], avg, j.unit())]
    if j.some(.3):
        cols.insert(0, cols.pop())
    if j.some(.3) and j.lang == "en":
        cols.append(Col([rng.choice(["Spread", "Std dev"])], [not_reading(Val(round(rng.uniform(1, 5), 1)), "spread") for _ in avg]))
    table(j, [lift] + cols).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F44 advertised beside tested", 2.5)
def f44(rng, name):
    j, s, h = start(rng, name)
    lifts = j.style.lifts(h.top)
    row = j.title(s, j.letterhead(s), head=h)
    lift, said = j.lift_col(lifts)
    adv, tested = j.word("advertised"), j.word("tested")
    cols = [lift]
    two_rows = j.some(.4)
    for p in ("intake", "exhaust") if j.some(.6) else ("intake",):
        for w, f, a in ((adv, 1.04, True), (tested, .97, False)):
            c = j.curve(h, p, said, factor=f if h.ceiling(p, said[0]) * .85 > h.cfm(p, said[0]) * f else 1 - .03 * (not a), advertised=a)
            if a:
                # The title states the conditions of the test, not of the claim.
                mark(c, pressure_any=True, bore_any=True, pipe_any=True)
            cols.append(Col([w, j.port_header(p)] if two_rows else [j.with_unit(f"{w} {j.port_word(p)}")], c, j.unit()))
    if two_rows:
        cols = [lift] + sorted(cols[1:], key=lambda c: c.heads[0])
    table(j, cols, top=rng.choice(["merged", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F45 advert only", 1)
def f45(rng, name):
    j, s, h = start(rng, name, lang="en", metric=False)
    lifts = rng.choice([[.3, .5, .6], [.2, .4, .6], [.5], [.4, .5]])
    lifts = [x for x in lifts if x <= h.top]
    row = j.title(s, 1, head=h, bore=j.some(.5), noise=False)
    s.put(row, 1, rng.choice(["Advertised flow", "Catalog flow", "Advertised"]))
    row += 1
    lift, said = j.lift_col(lifts)
    ports = ["intake", "exhaust"] if j.some(.5) else ["intake"]
    cols = [lift] + [Col([j.port_header(p)], j.curve(h, p, said, advertised=True, want="used" if len(lifts) > 1 else EITHER), j.unit()) for p in ports]
    table(j, cols).lay(s, row, 1)
    if j.some(.4):
        r, _ = s.end()
        s.put(r + 2, 1, not_reading(Val(f"flows {h.intake_peak * 1.06:.0f} cfm @ {h.top:.3f}"), "prose of an advert", want="advert"))
    j.finish(s)
    return j.book


@shape("F46 exhaust with and without pipe", 2)
def f46(rng, name):
    j, s, h = start(rng, name)
    lifts = j.style.lifts(h.top)
    row = j.title(s, j.letterhead(s), head=h)
    lift, said = j.lift_col(lifts)
    a, b = j.word("pipe"), j.word("no_pipe")
    exh = j.port_word("exhaust")
    two = j.some(.3)
    cols = [lift, Col([None, j.port_header("intake")] if two else [j.port_header("intake")], j.curve(h, "intake", said), j.unit())]
    for w, t, p in ((a, .0, "with pipe"), (b, -.05, "no pipe")):
        head = [exh, j.with_unit(w)] if two else [j.with_unit(rng.choice([f"{exh} {w}", f"{exh} ({w})"]))]
        cols.append(Col(head, j.curve(h, "exhaust", said, tilt=t, pipe=p), j.unit()))
    table(j, cols, top=rng.choice(["merged", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F47 intake bare and with manifold", 1.5)
def f47(rng, name):
    j, s, h = start(rng, name, lang=rng.choice(["en", "en", "en", "de", "fr"]))
    lifts = j.style.lifts(h.top)
    row = j.title(s, j.letterhead(s), head=h)
    lift, said = j.lift_col(lifts)
    i = j.port_word("intake")
    bare = rng.choice([f"{i} bare", f"{i} bare port", f"{i} head only"]) if j.lang == "en" else i
    cols = [lift, Col([j.with_unit(bare)], j.curve(h, "intake", said), j.unit()),
            Col([j.with_unit(f"{i} {j.word('manifold')}")], j.curve(h, "intake", said, tilt=-.08, entry="manifold"), j.unit())]
    if j.some(.4):
        cols.append(Col([j.port_header("exhaust")], j.curve(h, "exhaust", said), j.unit()))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F48 entry stated", 1)
def f48(rng, name):
    j, s, h = start(rng, name, lang="en")
    words, said = rng.choice([("radius plate", "radius"), ("clay radius on the intake", "clay"), ("with radiused entry plate", "radius"), ("clay", "clay")])
    row = j.title(s, j.letterhead(s), head=h, extra=[("Entry", words, f"{words}")], pipe=rng.choice(["with pipe", "no pipe", None]))
    cols = simple_cols(j, h, j.style.lifts(h.top))
    mark([v for v in cols[1].cells], entry=said)
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


STAGES = [["As delivered", "Valve job", "VJ + blend"], ["Stock", "3-angle", "Bowl", "Full"], ["As cast", "Pocket ported", "Full port"],
          ["Before", "After valve job"], ["Out of the box", "Bowl blend"], ["Stock", "Ported"]]


@shape("F49 stages of rework", 2.5)
def f49(rng, name):
    j, s, h = start(rng, name, lang="en", metric=False)
    lifts = j.style.lifts(h.top)
    stages = rng.choice(STAGES)
    both = j.some(.4)
    row = j.title(s, j.letterhead(s), head=h, port=None if both else "intake")
    lift, said = j.lift_col(lifts)
    cols = [lift]
    for p in ("intake", "exhaust") if both else ("intake",):
        curves = [j.curve(h, p, said, factor=.90 + .03 * k, state="" if k == 0 else st) for k, st in enumerate(stages)]
        for st, c in zip(stages, curves):
            w = j.with_unit(st)
            cols.append(Col([j.port_word(p), w] if both else [w], c, j.unit()))
        if j.some(.5):
            gain = [not_reading(number_like(j, shown(b) - shown(a)), "gain column") for a, b in zip(curves[0], curves[-1])]
            cols.append(Col([j.port_word(p), "Gain"] if both else ["Gain"], gain))
    table(j, cols, top=rng.choice(["merged", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F50 one sample on two bores", 2)
def f50(rng, name):
    j, s, h = start(rng, name)
    lifts = j.style.lifts(h.top)
    a, b = h.bore, round(h.bore + rng.choice([.095, .125, .25]), 3)
    serial = f"{rng.randint(100, 999)}"
    if j.some(.5):
        row = j.title(s, 1, head=h, bore=False, noise=False, extra=[(j.word("serial"), serial, f"S/N {serial}")])
        kept = dict(j.conditions)
        for bore, t in ((a, 0), (b, .02)):
            text, said_bore = j.style.bore_text(bore)
            s.put(row, 1, rng.choice(j.style.words["loose_bore"]).format(text))
            j.conditions = dict(kept, bore_in=said_bore)
            table(j, simple_cols(j, h, lifts, tilt=t)).lay(s, row + 1, 1)
            row = s.end()[0] + rng.randint(2, 3)
    else:
        row = j.title(s, 1, head=h, bore=False, noise=False)
        lift, said = j.lift_col(lifts)
        cols = [lift]
        for bore, t in ((a, 0), (b, .02)):
            text, said_bore = j.style.bore_text(bore)
            banner = rng.choice(j.style.words["loose_bore"]).format(text)
            for p in ("intake", "exhaust"):
                cols.append(Col([banner, j.port_header(p)], j.curve(h, p, said, tilt=t, bore_in=said_bore), j.unit()))
        table(j, cols, top=rng.choice(["merged", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F51 several castings", 2)
def f51(rng, name):
    j, s, h = start(rng, name, lang="en")
    lifts = j.style.lifts(h.top)
    row = j.title(s, j.letterhead(s), head=h, port="intake", noise=False)
    lift, said = j.lift_col(lifts)
    names = rng.choice([["Sample A", "Sample B", "Sample C"], ["S/N 0412", "S/N 0418"], ["Casting 1", "Casting 2", "Casting 3"], ["Serial A12", "Serial A19"]])
    cols = [lift] + [Col([j.with_unit(n)], j.curve(h, "intake", said, factor=1 - .02 * rng.random(), sample=n.split()[-1]), j.unit()) for n in names]
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F52 multi-valve head", 1)
def f52(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    h = world.multivalve(rng)
    words = rng.choice(["4 valve, both valves open", "4-valve head, both open", "4 valves a cylinder"]) if j.lang == "en" else \
        {"de": "Vierventiler, beide Ventile offen", "fr": "4 soupapes par cylindre", "it": "4 valvole per cilindro", "es": "4 válvulas por cilindro"}[j.lang]
    row = j.title(s, j.letterhead(s), head=h, valves=True, extra=[(j.word("notes"), words, words)])
    cols = simple_cols(j, h, j.style.lifts(h.top))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book
