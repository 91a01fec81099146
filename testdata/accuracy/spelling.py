"""How one sheet writes its lifts, flows, bores and pressures. A Style is drawn
once a sheet; every value it writes comes back with what it really says."""
import math
from dataclasses import dataclass

from paper import Val
from wording import CFM_TO, FLOW_UNITS, LANGUAGES, LIFT_UNITS

IN_H2O = 249.08891  # Pa, conventional; NIST SP 811 (2008), Appendix B.8
TO_IN_H2O = {"inH2O": 1.0, "mbar": 100 / IN_H2O, "kPa": 1000 / IN_H2O, "mmH2O": 9.80665 / IN_H2O}
FRACTIONS = {1 / 8: "1/8", 1 / 16: "1/16", 1 / 4: "1/4", 1 / 2: "1/2", 3 / 8: "3/8", 5 / 8: "5/8", 3 / 4: "3/4", 3 / 16: "3/16"}


def plain(x, digits, mark=".", keep=True):
    text = f"{x:.{digits}f}"
    if not keep and "." in text:
        text = text.rstrip("0").rstrip(".")
    return text.replace(".", mark)


def no_zero(x, digits, mark="."):
    text = plain(x, digits, mark)
    # ".100" is the trade's way with points; with commas the zero is written.
    return text[1:] if text.startswith("0") and digits and mark == "." else text


@dataclass
class Style:
    rng: object
    lang: str = "en"
    flow_unit: str = "cfm"
    mark: str = "."          # decimal mark of numbers that are text
    text: bool = False       # numbers are stored as text
    digits: int = 0
    lift: str = "inch"       # inch, thou, mm
    lift_look: str = "number"
    pressure_unit: str = "inH2O"
    pressure: float = 28.0   # in its unit

    @property
    def words(self):
        return LANGUAGES[self.lang]

    def word(self, key):
        return self.rng.choice(self.words[key])

    # Lifts ------------------------------------------------------------------
    def lifts(self, top, fewest=5):
        """A list of lifts in inches as this sheet steps them."""
        if self.lift == "mm":
            highest = round(top * 25.4)
            step = self.rng.choice([1, 2, 1.5 if highest > 9 else 1])
            n = int(highest / step)
            return [round(step * k / 25.4, 9) for k in range(1, max(n, fewest) + 1) if step * k <= 20]
        top = min(max(top, .50), 1.0)
        steps = self.rng.choice(["100", "100", "050", "fine top"])
        if steps == "100":
            out = [k / 10 for k in range(1, int(top * 10 + .01) + 1)]
        elif steps == "050":
            out = [k / 20 for k in range(1 if self.rng.random() < .3 else 2, int(top * 20 + .01) + 1)]
        else:
            out = [.1, .2, .3, .4] + [k / 20 for k in range(9, int(top * 20 + .01) + 1)]
        return [round(x, 3) for x in out]

    def lift_val(self, lift):
        """One lift as it stands in a cell, with what it says in inches."""
        if self.lift == "mm":
            x = round(lift * 25.4, 2)
            said = x / 25.4
            digits = 0 if x == int(x) else 1
            look = self.lift_look
            if look == "number":
                return Val(x), said
            if look == "unit":
                return Val(plain(x, digits, self.mark) + " mm"), said
            return Val(plain(x, digits, self.mark)), said
        if self.lift == "thou":
            x = round(lift * 1000)
            return Val({"number": x, "text": str(x), "unit": f"{x} thou", "L": f"L{x}"}.get(self.lift_look, x)), x / 1000
        x = round(lift, 3)
        fmt = self.rng_fmt
        looks = {
            "number": Val(x, fmt), "text": Val(no_zero(x, 3, self.mark)), "zero": Val(plain(x, 3, self.mark)),
            "short": Val(no_zero(x, 3, self.mark).rstrip("0")), "quote": Val(plain(x, 3, self.mark) + '"'),
            "unit": Val(plain(x, 3, self.mark) + " in"), "L": Val("L" + no_zero(x, 3, self.mark)),
            "@": Val("@" + no_zero(x, 3, self.mark)), "lift": Val(no_zero(x, 3, self.mark) + " " + self.words["lift"][0].lower()),
        }
        return looks[self.lift_look], x

    @property
    def rng_fmt(self):
        if not hasattr(self, "_fmt"):
            self._fmt = self.rng.choice([".000", "0.000", None, "0.00#", ".000"])
        return self._fmt

    def lift_header(self, unit=None):
        """The header over lifts. Millimetres always say so; inches and thou are
        told by the list itself, so their unit is optional."""
        word = self.word("lift")
        unit = unit or {"mm": "mm", "thou": "thou", "inch": "in"}[self.lift]
        if self.lift_look == "unit" or (self.lift != "mm" and self.rng.random() < .5):
            return word
        u = self.rng.choice(LIFT_UNITS[unit])
        return self.rng.choice([f"{word} {u}", f"{word} ({u})", f"{word}, {u}"])

    # Flows ------------------------------------------------------------------
    @property
    def at(self):
        """The test pressure in inches of water."""
        return self.pressure * TO_IN_H2O[self.pressure_unit]

    def flow_val(self, cfm28, at=None, truth=None, digits=None):
        """A cell with the flow as tested at the pressure, and the truth in it."""
        digits = self.digits if digits is None else digits
        if self.flow_unit != "cfm":
            digits = max(digits, 1)
        tested = cfm28 * math.sqrt((at or self.at) / 28)
        if self.flow_unit == "m3/min":
            # Three digits after a comma could be thousands to a stranger.
            digits = 2 if self.mark == "," else 3
        shown = round(tested * CFM_TO[self.flow_unit], digits)
        fmt = {0: "0", 1: "0.0", 2: "0.00", 3: "0.000"}[digits]
        v = Val(plain(shown, digits, self.mark)) if self.text else Val(shown, self.rng.choice([fmt, None]))
        if truth is not None:
            v.truth = dict(truth, cfm=shown / CFM_TO[self.flow_unit])
        return v

    def flow_unit_word(self):
        return self.rng.choice(FLOW_UNITS[self.flow_unit])

    # Conditions ---------------------------------------------------------------
    def pressure_texts(self):
        p = plain(self.pressure, 1, self.mark, keep=False)
        if self.pressure_unit == "inH2O":
            out = [f'{p}" H2O', f"{p} inH2O", f"{p} in H2O", f'{p}" WC', f"{p} in. water", f'{p}"', f'{p}"']
            if self.pressure == 28 and self.flow_unit == "cfm":
                out += [f"@{p}", f"@ {p}"]
            return out
        if self.pressure_unit == "mmH2O":
            return [f"{p} mm H2O", f"{p} mmH2O"] + ([f"{p} mm WS", f"{p} mmWS"] if self.lang == "de" else [])
        return [f"{p} {self.pressure_unit}"]

    def pressure_text(self, keyed=False):
        out = self.pressure_texts()
        if keyed:
            out = [t.replace("@", "").strip() for t in out]
            out = [t for t in out if not t.replace(".", "").isdigit()] or out
        return self.rng.choice(out)

    def bore_text(self, bore):
        """A bore in inches as written, and what that says in inches."""
        if self.lift == "mm" or self.rng.random() < .06:
            mm = round(bore * 25.4, 1)
            text = plain(mm, 1, self.mark, keep=False)
            return self.rng.choice([f"{text} mm", f"{text}mm", f"Ø{text} mm"]), mm / 25.4
        whole, part = int(bore), round(bore - int(bore), 4)
        forms = [plain(bore, 3), plain(bore, 3), plain(bore, 3) + '"']
        if part in FRACTIONS:
            forms += [f"{whole} {FRACTIONS[part]}", f'{whole}-{FRACTIONS[part]}"']
        return self.rng.choice(forms), round(bore, 3)


def draw(rng, lang="en", metric=None):
    """The style of one ordinary sheet."""
    if metric is None:
        metric = rng.random() < (.10 if lang == "en" else .75)
    s = Style(rng, lang)
    s.digits = rng.choice([0, 0, 0, 1, 1])
    if metric:
        s.lift = "mm"
        s.lift_look = rng.choice(["number", "number", "text", "unit"])
        s.flow_unit = rng.choice(["l/s", "l/s", "m3/h", "cfm", "m3/min"])
        s.digits = 1
        s.pressure_unit, s.pressure = rng.choice([("mbar", 60), ("mbar", 70), ("kPa", 7), ("mmH2O", 700), ("mmH2O", 500), ("inH2O", 28), ("inH2O", 25), ("mbar", 62.5)])
        s.mark = "," if lang != "en" and rng.random() < .8 else "."
        s.text = rng.random() < (.5 if s.mark == "," else .1)
        return s
    s.lift = rng.choice(["inch"] * 7 + ["thou"] * 2)
    s.lift_look = rng.choice(["number"] * 6 + (["text", "zero", "short", "quote", "unit", "L", "@", "lift"] if s.lift == "inch" else ["text", "unit", "L"]))
    s.text = rng.random() < .12
    if lang != "en":
        s.mark = "," if rng.random() < .6 else "."
    return s
