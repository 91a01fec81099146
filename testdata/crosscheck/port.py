"""Curves of a port, valve and bore, by scipy's interpolation and quadrature."""
from math import acos, asin, cos, pi, radians, sin, sqrt, tan

import numpy as np
from scipy.integrate import quad
from scipy.interpolate import PchipInterpolator

H = 1e-4  # half step of the sensitivities, cfm


def split(values):
    """n, n lifts, n flows, then the rest."""
    n = int(values[0])
    x = np.concatenate([[0.0], values[1 : n + 1]])
    y = np.concatenate([[0.0], values[n + 1 : 2 * n + 1]])
    return x, y, values[2 * n + 1 :]


def value_and_slope(*values):
    x, y, (at,) = split(values)
    p = PchipInterpolator(x, y)
    return [p(at), p(at, 1)]


def mean(*values):
    x, y, (a, b) = split(values)
    end = min(b, x[-1])
    return [PchipInterpolator(x, y).integrate(a, end) / (end - a), (end - a) / (b - a)]


def weights(*values):
    x, y, (a, b) = split(values)
    out = []
    for i in range(1, len(x)):
        up, down = y.copy(), y.copy()
        up[i] += H
        down[i] -= H
        up, down = (PchipInterpolator(x, v).integrate(a, b) for v in (up, down))
        out.append((up - down) / (2 * H * (b - a)))
    return out


def cam_mean(*values):
    x, y, (peak, lobe, polynomial, between) = split(values)
    p = PchipInterpolator(x, y)
    if polynomial:
        lift = lambda u: peak * (1 - u * u) ** 2
        at = lambda f: sqrt(1 - sqrt(f))
    else:
        lift = lambda u: peak / 2 * (1 + cos(pi * u))
        at = lambda f: acos(2 * f - 1) / pi
    end = at(0.050 / lobe) if between else 1.0
    breaks = sorted(at(v / peak) for v in x if 0 < v < peak)
    total, start = 0.0, 0.0
    for stop in [b for b in breaks if b < end] + [end]:
        total += quad(lambda u: p(lift(u)), start, stop, epsabs=1e-11, epsrel=1e-11)[0]
        start = stop
    return [total / end]


def open_share(lift, valve, bore, offset, chi):
    rv, r = valve / 2, bore / 2

    def share(phi):
        d = -offset * cos(phi) + sqrt(r * r - (offset * sin(phi)) ** 2)
        return min(1.0, chi * (d * d - rv * rv) / (2 * rv) / lift)

    # The share is clipped where the gap is lift/chi: a corner to split at.
    d = sqrt(rv * rv + 2 * rv * lift / chi)
    corner = []
    if offset > 0:
        c = (r * r - offset * offset - d * d) / (2 * d * offset)
        if -1 < c < 1:
            corner = [acos(c)]
    total, start = 0.0, 0.0
    for stop in corner + [pi]:
        total += quad(share, start, stop, epsabs=1e-12, epsrel=1e-12)[0]
        start = stop
    return [total / pi]


def valve_mass(head, stem, length, margin, face, seat, back, fillet):
    """Volume by quadrature over the radius instead of the height."""
    r0, rs = head / 2, stem / 2
    seat, back = radians(seat), radians(back)
    r1 = r0 - face * cos(seat)
    r2 = rs + fillet * (1 - sin(back))
    heights = [margin, face * sin(seat), (r1 - r2) * tan(back), fillet * cos(back)]
    pieces = [
        pi * r0 * r0 * heights[0],
        quad(lambda z: pi * (r0 - z / tan(seat)) ** 2, 0, heights[1])[0],
        quad(lambda z: pi * (r1 - z / tan(back)) ** 2, 0, heights[2])[0],
        # Shells: the height of the fillet at radius r is that of a circle.
        pi * rs * rs * heights[3]
        + quad(
            lambda r: 2 * pi * r * (heights[3] - sqrt(max(fillet**2 - (rs + fillet - r) ** 2, 0))),
            rs, r2, epsabs=1e-10, epsrel=1e-12,
        )[0],
        pi * rs * rs * (length - sum(heights)),
    ]
    return [sum(pieces) * 7.85e-3]


FUNCTIONS = {
    "curve": value_and_slope,
    "window mean": mean,
    "weights": weights,
    "cam mean": cam_mean,
    "open share": open_share,
    "valve mass": valve_mass,
}
