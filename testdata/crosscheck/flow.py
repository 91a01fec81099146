"""Air and its measurement, by fluids and scipy.constants."""
from math import pi, sqrt

import fluids
from fluids.flow_meter import C_Reader_Harris_Gallagher
from fluids.safety_valve import API520_C, API520_F2
from scipy import constants

TAPS = ["corner", "D", "flange"]


def units(x):
    inch_water = constants.inch * 1000 * constants.g
    return [
        x * inch_water,
        x * inch_water / constants.psi,
        x * inch_water / 100,
        x * constants.foot**3 / constants.minute * 1000,
        x * constants.foot**3 / constants.minute * constants.hour,
        x * constants.inch * 1000,
        x * constants.inch**2 * 1e6,
        x * constants.inch**3 * 1e6,
        x * constants.pound * 1000,
        x * constants.oz * 1000,
        x * constants.lbf,
        x * constants.foot,
        constants.convert_temperature(x, "F", "K"),
    ]


def nozzle_expansibility(r, beta, k):
    return [fluids.nozzle_expansibility(D=1.0, Do=beta, P1=1.0, P2=r, k=k)]


def orifice_expansibility(r, beta, k):
    return [fluids.orifice_expansibility(D=1.0, Do=beta, P1=1.0, P2=r, k=k)]


def critical_ratio(k):
    return [fluids.P_critical_flow(P=1.0, k=k)]


def flow_function(r, k):
    """API 520's F2 is the nozzle's expansibility, its C the choked flow function."""
    if r <= fluids.P_critical_flow(P=1.0, k=k):
        # C = 520 sqrt(k (2/(k+1))^((k+1)/(k-1))) in US units; 0.03948 in SI.
        return [API520_C(k) / 0.03948]
    return [API520_F2(k=k, P1=1.0, P2=r) * sqrt(2 * (1 - r))]


def dry_air(celsius, pascals):
    """Density by the gas constant and molar mass of the standard atmosphere."""
    t = celsius + constants.zero_Celsius
    return [fluids.ATMOSPHERE_1976.density(T=t, P=pascals), fluids.ATMOSPHERE_1976.sonic_velocity(t)]


def reader_harris_gallagher(d_pipe, d_bore, taps, reynolds):
    mu, rho = 1.8e-5, 1.2
    m = reynolds * pi * d_pipe * mu / 4
    return [C_Reader_Harris_Gallagher(D=d_pipe, Do=d_bore, rho=rho, mu=mu, m=m, taps=TAPS[int(taps)])]


def pipe_orifice(d_pipe, d_bore, taps, drop, p1, rho, mu, k):
    return [
        fluids.differential_pressure_meter_solver(
            D=d_pipe, D2=d_bore, P1=p1, P2=p1 - drop, rho=rho, mu=mu, k=k,
            meter_type="ISO 5167 orifice", taps=TAPS[int(taps)],
        )
    ]


FUNCTIONS = {
    "units": units,
    "nozzle expansibility": nozzle_expansibility,
    "orifice expansibility": orifice_expansibility,
    "critical ratio": critical_ratio,
    "flow function": flow_function,
    "dry air": dry_air,
    "orifice coefficient": reader_harris_gallagher,
    "orifice flow": pipe_orifice,
}
