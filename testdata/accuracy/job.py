"""The work of composing one book: the sheet's style, its title lines, its
curves, and the noise around them."""
import datetime
import math

from paper import Book, Val
from spelling import draw, plain
from table import Col
from wording import CONTROLS, FOOTERS, LETTERHEADS

USED, EITHER, ASKED, ASIDE, REFUSED = "used", "either", "asked", "set_aside", "refused"


class Job:
    def __init__(self, rng, shape, lang=None, metric=None):
        self.rng = rng
        self.lang = lang or rng.choice(["en"] * 12 + ["de", "de", "fr", "it", "es"])
        self.style = draw(rng, self.lang, metric)
        self.book = Book(shape, self.lang)
        self.series = 0
        # Where the sheet says the flow unit: over each column, in a units row,
        # in the title, or in the corner of the table.
        self.unit_at = rng.choice(["header", "header", "units row", "title", "title"])
        # "In" and "I" are clear only beside "Ex" and "E"; simple_cols uses them.
        self.ports = rng.choice([p for p in self.style.words["ports"] if len(p[0]) > 2])

    def word(self, key):
        return self.style.word(key)

    def some(self, p):
        return self.rng.random() < p

    # Curves -----------------------------------------------------------------
    def curve(self, head, port, lifts, *, factor=1.0, tilt=0.0, at=None, digits=None, want=USED, truth=None, **facts):
        """One column of readings. tilt changes the top of the curve more than
        its foot, as a bore or a pipe does. facts go into the truth."""
        self.series += 1
        st, out = self.style, []
        at = at or st.at
        for lift in lifts:
            x = lift / lifts[-1]
            jitter = 1 + self.rng.uniform(-.003, .003)
            cfm28 = head.cfm(port, lift) * factor * (1 + tilt * x) * jitter
            t = dict(head=head.name, state="", port=port, lift_in=lift, pressure_in=at, want=want,
                     series=self.series, bore_in=None, pipe="", advertised=False, mark="", run="", entry="")
            t.update(self.stated(head))
            t.update(facts)
            if port == "intake":
                t["pipe"] = ""
            v = st.flow_val(cfm28, at, t, digits)
            t = v.truth
            t["cfm_28"] = None if at is None else t["cfm"] * math.sqrt(28 / at)
            limit = head.ceiling(port, lift) * (.95 if port == "intake" else 1.0)
            assert t["cfm_28"] <= limit, (head.name, port, lift, t["cfm_28"], limit)
            out.append(v)
        return out

    def stated(self, head):
        """What the sheet states for every curve on it; filled by title()."""
        return dict(getattr(self, "conditions", {}))

    def axis(self, lifts):
        """The cells of the lifts, and the lifts they really say."""
        pairs = [self.style.lift_val(x) for x in lifts]
        return [v for v, _ in pairs], [x for _, x in pairs]

    def lift_col(self, lifts, header=None):
        cells, said = self.axis(lifts)
        unit = {"mm": "mm", "thou": "thou", "inch": "in"}[self.style.lift]
        return Col([header or self.style.lift_header()], cells, unit), said

    # Words ------------------------------------------------------------------
    def port_word(self, port):
        return self.ports[0 if port == "intake" else 1]

    def with_unit(self, word):
        """A header over flows, with the unit when headers carry it here."""
        if self.unit_at != "header":
            return word
        u = self.style.flow_unit_word()
        return self.rng.choice([f"{word} {u}", f"{word} ({u})", f"{word}, {u}"])

    def port_header(self, port):
        return self.with_unit(self.port_word(port))

    def unit(self):
        return self.style.flow_unit_word()

    # Title lines ----------------------------------------------------------------
    def title(self, sheet, row=1, head=None, bore=True, pressure=True, unit=None, port=None, pipe=None, valves=False,
              extra=(), noise=True, how=None):
        """Writes the title lines and returns the next free row. Every argument
        that is False is not said here."""
        rng, st = self.rng, self.style
        unit = (self.unit_at in ("title", "corner")) if unit is None else unit
        facts = []  # (key, keyed value, loose text)
        if head is not None:
            title = self.word("title")
            loose = head.name if not title or self.some(.5) else self.rng.choice([f"{head.name} {title}", f"{title} {head.name}"])
            word = self.port_word(port) if port else ""
            if port and len(word) < 3:
                word = "Intake" if port == "intake" else "Exhaust"
            if port:
                loose += " " + rng.choice([word, word.lower()])
            facts.append((self.word("head"), f"{head.name} {word}".strip(), loose))
        cond = {}
        if bore is True:
            bore = head.bore if head is not None and self.some(.85) else False
        if bore is not False:
            text, said = st.bore_text(bore)
            facts.append((self.word("bore"), text, rng.choice(st.words["loose_bore"]).format(text)))
            cond["bore_in"] = said
        if unit and pressure and self.some(.6):
            u, p = self.unit(), st.pressure_text()
            loose = f"{u} {p}" if p.startswith("@") else rng.choice([f"{u} @ {p}", f"{u} at {p}"])
            facts.append((self.word("flow"), loose, loose))
        else:
            if unit:
                u = self.unit()
                facts.append((self.word("flow"), u, rng.choice([f"flow in {u}", f"all {u}", u]) if self.lang == "en" else u))
            if pressure:
                loose = st.pressure_text()
                if rng.random() < .4 and not loose.startswith("@"):
                    loose = f"{rng.choice(['TP', 'tested at', 'Test pressure']) if self.lang == 'en' else self.word('pressure')} {loose}"
                facts.append((self.word("pressure"), st.pressure_text(keyed=True), loose))
        if pipe is not None:
            w = self.word("pipe" if pipe == "with pipe" else "no_pipe")
            exh = self.ports[1] if self.lang != "en" else "exh"
            facts.append((f"{self.ports[1]}", w, f"{exh} {w}"))
            cond["pipe"] = pipe
        if valves:
            a, b = head.intake_valve, head.exhaust_valve
            text = f"{plain(a, 3)}/{plain(b, 3)}" if st.lift != "mm" else f"{plain(a * 25.4, 1, st.mark)}/{plain(b * 25.4, 1, st.mark)} mm"
            facts.append((self.word("valves"), text, f"{text} valves" if self.lang == "en" else f"{self.word('valves')} {text}"))
        facts += list(extra)
        if noise:
            if self.some(.6):
                facts.append((self.word("date"), self.date(), self.date()))
            if self.some(.4):
                by = rng.choice(CONTROLS)
                facts.append((self.word("operator"), by, by if self.some(.5) else f"by {by}"))
            if self.some(.25):
                n = rng.choice([f"{rng.randint(100, 9999):04d}", f"A{rng.randint(100, 999)}"])
                facts.append((self.word("serial"), n, f"S/N {n}"))
        self.conditions = {**getattr(self, "conditions", {}), **cond}
        return self.write_facts(sheet, row, facts, how)

    def write_facts(self, sheet, row, facts, how=None):
        rng = self.rng
        how = how or rng.choice(["line", "line", "spread", "two lines", "keys", "keyed lines"])
        if not facts:
            return row
        if how in ("keys", "keyed lines"):
            for key, value, _ in facts:
                if how == "keys":
                    sheet.put(row, 1, rng.choice([key, key + ":"]))
                    sheet.put(row, 2, value)
                else:
                    sheet.put(row, 1, f"{key}: {value}" if not hasattr(value, "year") else f"{key}: {value:%Y-%m-%d}")
                row += 1
            return row + rng.randint(0, 1)
        texts = [loose if isinstance(loose, str) else (loose if how == "spread" else f"{loose.month}/{loose.day}/{loose.year % 100}")
                 for _, _, loose in facts]
        if how == "spread":
            for i, t in enumerate(texts):
                sheet.put(row, 1 + i, t)
            return row + 1 + rng.randint(0, 1)
        sep = rng.choice(["   ", ", ", "  -  ", " | ", "; "])
        if how == "line" or len(texts) < 3:
            sheet.put(row, 1, sep.join(texts))
            return row + 1 + rng.randint(0, 1)
        k = rng.randint(1, len(texts) - 1)
        sheet.put(row, 1, sep.join(texts[:k]))
        sheet.put(row + 1, 1, sep.join(texts[k:]))
        return row + 2 + rng.randint(0, 1)

    def date(self):
        rng = self.rng
        d = datetime.date(2026, rng.randint(1, 3), rng.randint(1, 28))
        if self.some(.4):
            return d
        if self.lang != "en":
            return f"{d.day:02d}.{d.month:02d}.{d.year}"
        return rng.choice([f"{d.month}/{d.day}/{d.year}", f"{d.month}/{d.day}", f"{d:%Y-%m-%d}", f"{d:%b} {d.day} {d.year}"])

    # Noise --------------------------------------------------------------------
    def letterhead(self, sheet, row=1):
        if not self.some(.25):
            return row
        for line in self.rng.choice(LETTERHEADS):
            sheet.put(row, 1, line)
            row += 1
        return row + self.rng.randint(0, 1)

    def margins(self, sheet):
        if self.some(.35):
            sheet.shift(self.rng.choice([0, 1, 2, 4]), self.rng.choice([0, 1, 1, 3]))
        else:
            sheet.shift(0, 0)

    def foot(self, sheet, p=.25):
        if self.some(p):
            row, _ = sheet.end()
            sheet.put(row + self.rng.randint(2, 4), 1, self.rng.choice(FOOTERS))

    def finish(self, sheet):
        self.foot(sheet)
        self.margins(sheet)
        sheet.chart = self.some(.05)

    def tab(self):
        return self.rng.choice(["Sheet1", "Sheet1", "Flow", "Tabelle1" if self.lang == "de" else "Sheet1", "flow sheet"])


def mark(vals, **changes):
    """The same cells with other truth."""
    for v in vals:
        v.truth.update(changes)
    return vals


def number_like(job, x, digits=None):
    """A number that is no reading: a summary, a difference, a velocity."""
    digits = job.style.digits if digits is None else digits
    if job.style.flow_unit != "cfm":
        digits = max(digits, 2 if job.style.flow_unit == "m3/min" else 1)
    return Val(round(x, digits)) if not job.style.text else Val(plain(x, digits, job.style.mark))


def not_reading(val, why, want=ASIDE):
    val.truth = dict(want=want, why=why)
    return val


def shown(val):
    """The number a cell shows, in the sheet's own unit."""
    return float(str(val.v).replace(",", "."))
