"""What stands in the cells: spellings, text readings, non-readings, notes,
hidden parts, formulas."""
import datetime

import world
from job import ASIDE, ASKED, EITHER, REFUSED, mark, not_reading, shown
from paper import Val, name
from shapes import job, one_head, shape, simple_cols, simple_sheet, table
from spelling import no_zero, plain
from table import Col


def start(rng, title, **how):
    j = job(rng, title, **how)
    s = j.book.sheet(j.tab())
    return j, s, one_head(j)


@shape("F33 lift spellings", 3)
def f33(rng, title):
    """Several blocks in one book, each with its own way of writing lifts, and
    lists whose cells are not written alike."""
    j = job(rng, title, lang="en", metric=False)
    s = j.book.sheet(j.tab())
    heads = world.heads(rng, rng.randint(2, 3))
    row = 1
    for h in heads:
        j.style.lift = rng.choice(["inch", "inch", "thou"])
        looks = ["number", "text", "zero", "short", "quote", "unit", "L", "@", "lift"] if j.style.lift == "inch" else ["number", "text", "unit", "L"]
        j.style.lift_look = rng.choice(looks)
        lifts = j.style.lifts(h.top)
        j.conditions = {}
        row = j.title(s, row, head=h, how=rng.choice(["line", "spread"]), noise=False)
        cols = simple_cols(j, h, lifts)
        if j.style.lift == "inch" and j.some(.4):
            for i, x in enumerate(lifts):
                cols[0].cells[i] = rng.choice([Val(x), Val(no_zero(x, 3)), Val(plain(x, 3)), Val(plain(x, 3) + '"'), Val(no_zero(x, 3) + " in")])
        table(j, cols).lay(s, row, 1)
        row = s.end()[0] + rng.randint(2, 4)
    j.finish(s)
    return j.book


@shape("F34 bore spellings", 2)
def f34(rng, title):
    j, s, h = start(rng, title, lang="en")
    bore = rng.choice([4.125, 4.0625, 4.25, 4.5, 4.03, 4.155, 4.06, 4.375, 4.31])
    whole, part = int(bore), bore - int(bore)
    frac = {.125: "1/8", .0625: "1/16", .25: "1/4", .5: "1/2", .375: "3/8"}.get(part)
    mm = round(bore * 25.4, 1)
    forms = [(f"{bore:.3f}", bore), (f'{bore:.3f}"', bore), (f"{mm} mm", mm / 25.4), (f"Ø{mm} mm", mm / 25.4), (f"{bore:.3f} in", bore), (f"{mm}mm", mm / 25.4)]
    if frac:
        forms += [(f"{whole} {frac}", bore), (f'{whole}-{frac}"', bore), (f"{whole}-{frac}", bore), (f'{whole} {frac}"', bore)]
    text, said = rng.choice(forms)
    said = round(said, 6)
    if j.some(.15):
        text, said = ".030 over", None  # over what, the sheet does not say
    row = j.title(s, j.letterhead(s), head=h, bore=False, extra=[("Bore", text, rng.choice(["{} bore", "bore {}", "{} fixture", "on {} tube"]).format(text))])
    j.conditions = dict(j.conditions, bore_in=said, bore_any=said is None)
    table(j, simple_cols(j, h, j.style.lifts(h.top))).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F35 sizes turned into dates", 1)
def f35(rng, title):
    """The spreadsheet made a date of a fraction: 11/32, 4-1/8."""
    j, s, h = start(rng, title, lang="en", metric=False)
    row = j.title(s, j.letterhead(s), head=h, bore=False, noise=False, how="keys")
    stem = rng.choice([datetime.date(1932, 11, 1), datetime.date(2026, 5, 16), datetime.date(2026, 3, 8)])
    s.put(row, 1, "Stem")
    s.put(row, 2, stem)
    row += 1
    if j.some(.4):
        s.put(row, 1, "Bore")
        s.put(row, 2, Val(datetime.date(2008, 4, 1)))  # typed 4-1/8
        j.conditions = dict(j.conditions, bore_any=True)
        row += 1
    row += rng.randint(0, 1)
    table(j, simple_cols(j, h, j.style.lifts(h.top))).lay(s, row, 1)
    j.finish(s)
    return j.book


def text_reading(j, v, remark_only=False):
    """Rewrites a reading as the text a tester types."""
    x = shown(v)
    n = plain(x, 0 if x == int(x) else 1)
    kinds = [("~{}", "used"), ("{} cfm", "used"), ("{} (stalled)", "used"), ("{} (backs up)", "used"), ("{}?", "used"),
             (" {}", "used"), ("\u00a0{}\u00a0", "used"), ("({})", EITHER), ("{}+", EITHER), (">{}", "floor"), ("<{}", ASIDE),
             ("{} noisy", "used"), ("{} whistles", "used"), ("RANGE", EITHER), ("TWO", ASKED), ("SPACED", ASKED)]
    form, want = j.rng.choice(kinds)
    t = dict(v.truth, want=want)
    if form == "RANGE":
        top = round(x + 4)
        text = f"{n}-{top}"
        t["cfm"] = (x + top) / 2
        t["cfm_28"] = t["cfm"] * (28 / t["pressure_in"]) ** .5
    elif form == "TWO":
        text = f"{n}/{plain(x - 4, 0)}"
    elif form == "SPACED":
        text = n[0] + " " + n[1:]
        t["want"] = ASKED if len(n) == 3 and n.isdigit() else EITHER
        t["cfm_28"] = None if t["want"] == ASKED else t["cfm_28"]
    else:
        text = form.format(n)
    return Val(text, truth=t)


@shape("F36 numbers that are text", 3)
def f36(rng, title):
    j, s, h = start(rng, title, lang="en", metric=False)
    j.style.text = j.some(.2)
    row = j.title(s, j.letterhead(s), head=h)
    cols = simple_cols(j, h, j.style.lifts(h.top))
    for c in cols[1:]:
        for k in rng.sample(range(len(c.cells)), min(2, len(c.cells) - 4)):
            c.cells[k] = text_reading(j, c.cells[k])
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


NOTHING = ["-", "--", "n/a", "N/T", "DNF", "NR", "x", "tbd", "out of air", "pegged", "whistles", "hit the piston", "#REF!", "#DIV/0!", "0", None, "O", "N/A"]


@shape("F37 non-readings", 3)
def f37(rng, title):
    j, s, h = start(rng, title, lang="en")
    row = j.title(s, j.letterhead(s), head=h)
    cols = simple_cols(j, h, j.style.lifts(h.top, 6))
    for c in cols[1:]:
        for k in rng.sample(range(1, len(c.cells)), rng.randint(1, 2)):
            word = rng.choice(NOTHING)
            if word is None:
                c.cells[k] = None
            else:
                v = Val(0) if word == "0" else Val(word)
                c.cells[k] = not_reading(v, "no reading: " + word, want=REFUSED)
    orient = "across" if j.some(.2) and j.unit_at != "units row" else "down"
    table(j, cols, orient=orient).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F38 footnotes", 1.5)
def f38(rng, title):
    j, s, h = start(rng, title, lang="en", metric=False)
    row = j.title(s, j.letterhead(s), head=h)
    cols = simple_cols(j, h, j.style.lifts(h.top))
    sign = rng.choice(["*", "†", " (1)"])
    missing = j.some(.25)
    c = rng.choice(cols[1:])
    for k in rng.sample(range(2, len(c.cells)), rng.randint(1, 2)):
        v = c.cells[k]
        c.cells[k] = Val(f"{shown(v):g}{sign}", truth=dict(v.truth, want=EITHER if missing else "used"))
    table(j, cols).lay(s, row, 1)
    if not missing:
        note = rng.choice(["re-checked", "read twice", "noisy", "valve re-seated, same number"])
        s.put(s.end()[0] + rng.choice([1, 2, 6]), 1, f"{sign.strip()} {note}")
    j.margins(s)
    return j.book


@shape("F39 notes in the margin and comments", 2)
def f39(rng, title):
    j, s, h = start(rng, title, lang="en")
    notes = ["backs up past here", "turbulent", "noisy", "same as the March one", "good port", "same as last time", "call Dale re 2nd head"]
    row = j.title(s, j.letterhead(s), head=h)
    cols = simple_cols(j, h, j.style.lifts(h.top))
    where = rng.choice(["margin", "margin", "comment", "below"])
    if j.some(.15):
        # Words that cast doubt: whether the sheet still counts is a question.
        notes = ["clay fell off, re-tested", "wrong, don't use", "different bench, borrowed"]
        for c in cols[1:]:
            mark(c.cells, want=EITHER)
    if where == "comment":
        rng.choice(cols[1].cells).note = rng.choice(notes)
    end, right = table(j, cols).lay(s, row, 1)
    if where == "margin":
        for r in rng.sample(range(row + 1, end + 1), rng.randint(1, 2)):
            s.put(r, right + rng.randint(1, 2), rng.choice(notes))
    if where == "below":
        s.put(end + rng.randint(1, 3), 1, rng.choice(notes))
    j.margins(s)
    return j.book


@shape("F40 colours and strike-through", 1.5)
def f40(rng, title):
    j, s, h = start(rng, title, lang="en")
    row = j.title(s, j.letterhead(s), head=h)
    cols = simple_cols(j, h, j.style.lifts(h.top))
    for c in cols[1:]:
        for k in rng.sample(range(len(c.cells)), 2):
            if j.some(.5):
                c.cells[k].strike = True
                c.cells[k].truth["want"] = ASKED
            else:
                c.cells[k].colour = rng.choice(["FFFF00", "FF9999", "99FF99"])
                c.cells[k].bold = j.some(.5)
    table(j, cols).lay(s, row, 1)
    j.finish(s)
    return j.book


@shape("F41 hidden rows, columns and tabs", 2)
def f41(rng, title):
    j, s, h = start(rng, title, lang="en")
    row = j.title(s, j.letterhead(s), head=h)
    lifts = j.style.lifts(h.top)
    cols = simple_cols(j, h, lifts, ["intake", "exhaust"])
    kind = rng.choice(["row", "column", "tab"])
    hidden = None
    if kind == "column":
        old = j.curve(h, "intake", [v.truth["lift_in"] for v in cols[1].cells], factor=.95, want=ASKED)
        hidden = rng.choice([2, 3])
        cols.insert(hidden, Col([rng.choice([j.port_header("intake"), j.with_unit(f"old {j.port_word('intake').lower()}")])], old, j.unit()))
    if kind == "row":
        k = rng.randrange(1, len(lifts) - 1)
        for c in cols[1:]:
            c.cells[k].truth["want"] = ASKED
    end, _ = table(j, cols).lay(s, row, 1)
    if kind == "row":
        s.hidden_rows.add(end - len(lifts) + 1 + k)
    if kind == "column":
        s.hidden_cols.add(1 + hidden)
    j.finish(s)
    if kind == "tab":
        t = j.book.sheet("old")
        other = one_head(j)
        cols, _, _ = simple_sheet(j, t, other)
        for c in cols[1:]:
            for v in c.cells:
                not_reading(v, "hidden tab")
        t.hidden = True
        t.shift(0, 0)
    j.book.why = kind
    return j.book


@shape("F43 formulas", 2)
def f43(rng, title):
    """Readings that are formulas over other cells: a mean of two pulls beside
    it, or a number brought over from a working tab."""
    j, s, h = start(rng, title, metric=False)
    j.style.text, j.unit_at = False, "header"
    j.style.lift_look = "number"
    row = j.title(s, 1, head=h, port="intake")
    lift, said = j.lift_col(j.style.lifts(h.top))
    c = j.curve(h, "intake", said, digits=1)
    first, col = row + 1, 2
    kind = rng.choice(["copy", "add", "mean row"])
    stored = j.some(.7)
    if kind in ("copy", "add"):
        work = j.book.sheet("work")
        work.put(1, 1, "working")
        for k, v in enumerate(c):
            work.put(2 + k, 1, Val(round(v.v - 1.0, 1) if kind == "add" else v.v))
            v.formula = f"work!A{2 + k}" + ("+1" if kind == "add" else "")
            v.stored = stored
            if not stored:
                v.truth["want"] = EITHER
    table(j, [lift, Col([j.port_header("intake")], c)]).lay(s, row, 1)
    if kind == "mean row":
        top, bottom = row + 1, s.end()[0]
        mean = round(sum(v.v for v in c) / len(c), 6)
        s.put(bottom + 1, 1, j.word("avg"))
        v = not_reading(Val(mean), "summary row")
        v.formula = lambda dr, dc: f"AVERAGE({name(top + dr, col + dc)}:{name(bottom + dr, col + dc)})"
        s.put(bottom + 1, 2, v)
    j.margins(s)
    return j.book
