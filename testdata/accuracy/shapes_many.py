"""Many heads in one book: tabs, blocks, lists."""
import world
from job import not_reading
from shapes import job, one_head, ports_of, shape, simple_cols, simple_sheet, table


@shape("F06 one head a tab", 2)
def f06(rng, name):
    j = job(rng, name)
    heads = world.heads(rng, rng.randint(2, 5))
    in_tab = j.some(.5) and j.style.pressure_unit == "inH2O" and j.style.lift != "mm"
    for h in heads:
        j.conditions = {}
        title = h.name
        if in_tab:
            title = f"{h.name} {h.bore:.3f} {j.style.pressure:g}in"
            j.conditions = {"bore_in": h.bore}
        s = j.book.sheet(title)
        # A bare "cfm" over the tables when the tab says the rest.
        row = j.title(s, 1, bore=False, pressure=not in_tab, noise=False, how="line") if not in_tab or j.unit_at == "title" else 1
        cols = simple_cols(j, h, j.style.lifts(h.top))
        table(j, cols).lay(s, row, 1)
        j.finish(s)
    return j.book


@shape("F07 cover tab with the conditions", 2)
def f07(rng, name):
    j = job(rng, name)
    heads = world.heads(rng, rng.randint(2, 4))
    cover = j.book.sheet(rng.choice(["Cover", "Conditions", "Index", "Info"]))
    cover.put(1, 1, rng.choice(["Flow tests 2026", "Flow data", heads[0].supplier + " flow data"]))
    j.title(cover, 3, bore=heads[0].bore, unit=True, pipe="with pipe" if j.some(.5) else None, how=rng.choice(["keys", "keyed lines", "line"]), noise=j.some(.4))
    kept = j.conditions
    for h in heads:
        s = j.book.sheet(h.name if j.some(.6) else f"Tab {len(j.book.sheets)}")
        j.conditions = dict(kept)
        row = 1
        if s.name != h.name or j.some(.5):
            row = j.title(s, 1, head=h, bore=False, pressure=False, unit=False, noise=False)
            j.conditions = dict(kept)
        cols = simple_cols(j, h, j.style.lifts(h.top))
        table(j, cols).lay(s, row, 1)
        j.finish(s)
    return j.book


@shape("F08 template tab beside a real one", 1)
def f08(rng, name):
    j = job(rng, name)
    s = j.book.sheet("Flow")
    h = one_head(j)
    simple_sheet(j, s, h)
    j.finish(s)
    t = j.book.sheet(rng.choice(["TEMPLATE", "MASTER - DO NOT DELETE", "Blank form", "Template (example)"]))
    other = world.heads(rng, 1)[0]
    cols, _, _ = simple_sheet(j, t, other)
    for c in cols[1:]:
        for v in c.cells:
            not_reading(v, "template tab")
    j.margins(t)
    return j.book


@shape("F09 stacked blocks", 3)
def f09(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    row = j.letterhead(s)
    heads = world.heads(rng, rng.randint(2, 4))
    whole = j.some(.5)  # conditions once at the top, or in every block's title
    if whole:
        row = j.title(s, row, bore=heads[0].bore, unit=True, noise=False) + 1
    kept = getattr(j, "conditions", {})
    how = rng.choice(["line", "spread", "keys", "two lines"])
    for h in heads:
        j.conditions = dict(kept)
        row = j.title(s, row, head=h, bore=not whole, unit=False if whole else None, pressure=not whole, noise=j.some(.4), how=how)
        table(j, simple_cols(j, h, j.style.lifts(h.top))).lay(s, row, 1)
        row = s.end()[0] + 1
        if j.some(.25):
            s.put(row + j.rng.randint(0, 1), 1, rng.choice(["checked twice", "seats a little wide", "clay radius"]))
            row = s.end()[0] + 1
        row += rng.randint(1, 3)
    j.margins(s)
    return j.book


@shape("F10 blocks in a grid", 2)
def f10(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    heads = world.heads(rng, rng.choice([2, 4, 4, 6]))
    row = j.title(s, 1, bore=heads[0].bore, unit=True, noise=False) + 1
    lifts = j.style.lifts(min(h.top for h in heads))
    ports = ports_of(j)
    wide = 2 if len(heads) < 6 else rng.choice([2, 3])
    k = 0
    while k < len(heads):
        bottom = row
        for i in range(wide):
            if k >= len(heads):
                break
            col = 1 + i * (len(ports) + 2)
            s.put(row, col, heads[k].name)
            r, _ = table(j, simple_cols(j, heads[k], lifts, ports)).lay(s, row + 1, col)
            bottom = max(bottom, r)
            k += 1
        row = bottom + rng.randint(2, 3)
    j.finish(s)
    return j.book


@shape("F11 long list, one reading a row", 3)
def f11(rng, name):
    j = job(rng, name)
    s = j.book.sheet(j.tab())
    st = j.style
    heads = world.heads(rng, rng.randint(1, 3))
    has = {k: j.some(p) for k, p in dict(date=.7, serial=.4, cyl=.3, tp=.6, bore=.6, note=.3).items()}
    row = 1
    if not has["tp"]:
        row = j.title(s, 1, unit=False, noise=False) + 1
    unit = j.unit()
    header = {"date": j.word("date"), "head": j.word("head"), "serial": "Serial", "cyl": j.word("cyl") if j.lang != "en" else rng.choice(["Cyl", "Cylinder"]),
              "port": st.words["side"],
              "lift": st.lift_header(), "cfm": unit if st.flow_unit == "cfm" and j.some(.6) else f"{rng.choice(['Flow', 'Flow rate']) if j.lang == 'en' else st.words['flow'][0]} {unit}",
              "tp": {"inH2O": "TP in H2O", "mbar": "TP mbar", "kPa": "TP kPa", "mmH2O": "TP mm H2O"}[st.pressure_unit],
              "bore": "Bore" if j.lang == "en" else j.word("bore"), "note": j.word("notes")}
    order = [k for k in ["date", "head", "serial", "cyl", "port", "lift", "cfm", "tp", "bore", "note"] if has.get(k, True)]
    if j.some(.3):
        order.remove("head")
        order.insert(0, "head")
    for i, k in enumerate(order):
        s.put(row, 1 + i, header[k])
    row += 1
    ditto = j.some(.15)  # the head is typed once and then repeated with a mark
    for h in heads:
        last = None
        text, said = st.bore_text(h.bore)
        date, serial = j.date(), f"{h.name[:1]}{rng.randint(10, 99)}"
        j.conditions = {"bore_in": said} if has["bore"] else {}
        lifts = st.lifts(h.top)
        for p in ports_of(j):
            for cyl in ([1, 3] if has["cyl"] and j.some(.5) else [1]):
                cells, says = j.axis(lifts)
                for lift, v in zip(cells, j.curve(h, p, says, mark=str(cyl) if has["cyl"] else "")):
                    note = rng.choice(["noisy", "checked", "re-seated before"]) if j.some(.05) else None
                    line = {"note": note, "date": date, "head": '"' if ditto and last == h.name else h.name, "serial": serial, "cyl": cyl, "port": j.port_word(p), "lift": lift,
                            "cfm": v, "tp": st.pressure, "bore": text}
                    last = h.name
                    for i, k in enumerate(order):
                        s.put(row, 1 + i, line.get(k))
                    row += 1
    j.margins(s)
    return j.book
