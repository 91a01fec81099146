"""Invented heads with plausible flow curves.

Every reading stays below 0.80 of what a hole of the valve's size can pass at
28 inH2O (147 cfm a square inch of curtain or valve area, whichever is
smaller), as real heads do. Names are casting codes of invented suppliers.
"""
import math
from dataclasses import dataclass, field

SUPPLIERS = {
    "LKC": "Larkmoor Castings", "PW": "Pellworth Foundry",
    "OB": "Oastbridge Machine", "VR": "Vintner Road Heads", "TD": "Tidewell",
    "MB": "Marlbeck Heads", "SWE": "Stonewharf Engine Works",
    "GR": "Grainmill Castings", "HQ": "Hollinquay", "KD": "Kelldrift Heads",
    "AQ": "Aldquay Heads",  # also a unit of pressure, inches of water
}
SHOP = "Saltmarsh Head & Machine"

# Share of the peak flow against lift over valve diameter.
INTAKE_SHAPE = [(0, 0), (.0495, .271), (.099, .534), (.1485, .757), (.198, .912),
                (.2475, .984), (.297, 1), (.36, .998), (.50, .985)]
EXHAUST_SHAPE = [(0, 0), (.0625, .306), (.125, .585), (.1875, .787), (.25, .913),
                 (.3125, .973), (.375, 1), (.50, 1.01)]


def between(table, x):
    for (x0, y0), (x1, y1) in zip(table, table[1:]):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return table[-1][1]


@dataclass
class Head:
    name: str
    supplier: str
    intake_valve: float   # in
    exhaust_valve: float  # in
    intake_peak: float    # cfm at 28 inH2O
    exhaust_peak: float
    stretch: float
    top: float            # highest lift worth testing, in
    bore: float           # in
    valves: int = 1       # a port
    bulge: list = field(default_factory=list)

    def valve(self, port):
        return self.intake_valve if port == "intake" else self.exhaust_valve

    def cfm(self, port, lift):
        """cfm at 28 inH2O."""
        x = lift / self.valve(port) * self.stretch
        if port == "intake":
            return self.intake_peak * between(INTAKE_SHAPE, x)
        return self.exhaust_peak * between(EXHAUST_SHAPE, x)

    def ceiling(self, port, lift):
        d = self.valve(port)
        return self.valves * 147 * math.pi * d * min(lift, d / 4)


KINDS = {
    #        intake valve  exhaust     cfm/in2     top lift           bores
    "small": ((1.94, 2.08), (1.50, 1.60), (66, 88), (.55, .60, .65, .70), (4.000, 4.030, 4.060, 4.125, 4.155)),
    "large": ((2.19, 2.25), (1.72, 1.88), (66, 92), (.70, .75, .80), (4.250, 4.310, 4.375, 4.500, 4.600)),
    "four": ((1.57, 1.81), (1.34, 1.50), (68, 90), (.433, .472, .512), (3.780, 3.661, 3.937, 3.504)),
}


def code(rng, taken):
    while True:
        prefix = rng.choice(list(SUPPLIERS))
        name = f"{prefix}-{rng.choice([rng.randint(3, 99), rng.randint(3, 99), rng.randint(100, 480)]):02d}"
        if rng.random() < .08:
            name += rng.choice("BCK")
        if name not in taken:
            taken.add(name)
            return name, SUPPLIERS[prefix]


def heads(rng, n, kind=None):
    """n different heads of one family."""
    kind = kind or rng.choice(["small", "small", "large", "four"])
    iv, ev, per_in2, tops, bores = KINDS[kind]
    bore, top, taken, out = rng.choice(bores), rng.choice(tops), set(), []
    for _ in range(n):
        name, supplier = code(rng, taken)
        i = round(rng.uniform(*iv), 3)
        e = round(rng.uniform(*ev), 3)
        out.append(Head(
            name, supplier, i, e,
            rng.uniform(*per_in2) * math.pi / 4 * i * i,
            rng.uniform(78, 92) * math.pi / 4 * e * e,
            rng.uniform(.93, 1.05), top, bore))
    return out


def multivalve(rng):
    """A head with two intake and two exhaust valves, flowed with both open."""
    name, supplier = code(rng, set())
    i, e = round(rng.uniform(1.22, 1.42), 3), round(rng.uniform(1.04, 1.22), 3)
    return Head(name, supplier, i, e,
                2 * rng.uniform(70, 88) * math.pi / 4 * i * i,
                2 * rng.uniform(74, 90) * math.pi / 4 * e * e,
                rng.uniform(.95, 1.03), .433, rng.choice((3.386, 3.405, 3.543)), valves=2)
