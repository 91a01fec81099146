"""Where one table stands and how it is turned."""
import world
from paper import Val
from shapes import job, one_head, ports_of, shape, simple_cols, simple_sheet, table
from table import Col, Table


@shape("F01 lift down, ports across", 4)
def f01(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    simple_sheet(j, s, h, valves=j.some(.25))
    j.finish(s)
    return j.book


@shape("F02 ports down, lift across", 3)
def f02(rng, name):
    j = job(rng, name)
    if j.unit_at == "units row":
        j.unit_at = "title"
    s, h = j.book.sheet(j.tab()), None
    h = one_head(j)
    lifts = j.style.lifts(h.top)
    corner = j.some(.4) and j.style.lift == "inch"
    if corner:
        j.unit_at = "corner"
    row = j.title(s, j.letterhead(s), head=h, unit=False if corner else None, pressure=not corner)
    cells, said = j.axis(lifts)
    head = f"{j.unit()} @ {j.style.pressure_text(keyed=True)}" if corner else j.style.lift_header()
    cols = [Col([head], cells)]
    for p in ports_of(j):
        cols.append(Col([j.port_header(p)], j.curve(h, p, said)))
    Table(cols, orient="across").lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F03 row per head, lifts across", 3)
def f03(rng, name):
    j = job(rng, name)
    j.unit_at = "title"
    s = j.book.sheet(j.tab())
    heads = world.heads(rng, rng.randint(2, 8))
    row = j.letterhead(s)
    row = j.title(s, row, bore=heads[0].bore if j.some(.7) else False, noise=False)
    top = min(h.top for h in heads)
    stacked = j.some(.4)
    cols = [Col([j.word("head")], [Val(h.name) for h in heads])]
    how = rng.choice(["merged", "merged", "first", "each"])
    for p in ("intake", "exhaust"):
        lifts = [x for x in j.style.lifts(top) if x >= .09][:7] or j.style.lifts(top)
        cells, said = j.axis(lifts)
        curves = [j.curve(h, p, said) for h in heads]
        if j.style.lift == "mm" and j.style.lift_look != "unit":
            cells = [Val(f"{v.v} mm" if not isinstance(v.v, float) else f"{v.v:g} mm".replace(".", j.style.mark)) for v in cells]
        block = [Col([j.port_word(p), cells[i]], [c[i] for c in curves]) for i in range(len(said))]
        if stacked:
            Table([Col([None, j.word("head")], [Val(h.name) for h in heads])] + block, top=how).lay(s, row, 1)
            row = s.end()[0] + rng.randint(2, 3)
        else:
            cols += block
    if not stacked:
        Table([Col([None] + cols[0].heads, cols[0].cells)] + cols[1:], top=how).lay(s, row, 1)
    j.finish(s)
    return j.book


def across(j, heads, lifts, levels):
    """Columns for many heads across: levels(head) gives its upper headers."""
    lift, said = j.lift_col(lifts)
    cols = [lift]
    for h in heads:
        for p in ("intake", "exhaust"):
            cols.append(Col(levels(h) + [j.port_header(p)], j.curve(h, p, said), j.unit()))
    return cols


@shape("F04 many heads across, two-row header", 3)
def f04(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    heads = world.heads(rng, rng.randint(2, 6))
    row = j.title(s, j.letterhead(s), bore=heads[0].bore if j.some(.7) else False, noise=j.some(.4))
    cols = across(j, heads, j.style.lifts(min(h.top for h in heads)), lambda h: [h.name])
    table(j, cols, top=rng.choice(["merged", "merged", "first", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F05 three-row header", 2)
def f05(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    heads = world.heads(rng, rng.randint(2, 4))
    row = j.title(s, j.letterhead(s), bore=heads[0].bore, noise=False)
    lifts = j.style.lifts(min(h.top for h in heads))
    if j.some(.5):
        heads.sort(key=lambda h: h.supplier)
        cols = across(j, heads, lifts, lambda h: [h.supplier, h.name])
    else:
        lift, said = j.lift_col(lifts)
        cols = [lift]
        stages = rng.choice([["As cast", "Pocket ported"], ["Stock", "Full port"], ["As delivered", "Valve job"]]) if j.lang == "en" else [["As delivered", "Valve job"]][0]
        for h in heads[:3]:
            for k, st in enumerate(stages):
                for p in ("intake", "exhaust"):
                    cols.append(Col([h.name, st, j.port_header(p)],
                                    j.curve(h, p, said, factor=1 + .04 * k if h.intake_peak < 260 else 1 - .01 * k, state="" if k == 0 else st.lower()), j.unit()))
    table(j, cols, top=rng.choice(["merged", "merged", "each"])).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F16 lift descending", 1.5)
def f16(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, j.letterhead(s), head=h)
    cols = simple_cols(j, h, j.style.lifts(h.top))
    for c in cols:
        c.cells.reverse()
    table(j, cols, orient=rng.choice(["down", "down", "across"]) if j.unit_at != "units row" else "down").lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F17 two lift columns", 2)
def f17(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, j.letterhead(s), head=h)
    lifts = j.style.lifts(h.top)
    a, said = j.lift_col(lifts)
    cols = [a, Col([j.port_header("intake")], j.curve(h, "intake", said), j.unit())]
    lifts = lifts[:-1] if j.some(.6) else [x for x in lifts if x <= lifts[-1] * .9]
    b, said = j.lift_col(lifts, header=a.heads[0])
    cols += [b, Col([j.port_header("exhaust")], j.curve(h, "exhaust", said), j.unit())]
    if j.some(.4):
        # A spacer column between the two halves.
        cols.insert(2, Col([None], []))
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F20 header and units repeated", 1.5)
def f20(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    h = one_head(j)
    row = j.title(s, j.letterhead(s), head=h)
    lifts = j.style.lifts(h.top)
    cols = simple_cols(j, h, lifts)
    Table(cols, units=True, repeat=(len(lifts) // 2,)).lay(s, row, 1)
    j.finish(s)
    return j.book
