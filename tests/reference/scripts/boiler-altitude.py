"""Boiling points under a gauge at an altitude, from the saturation pressure of IAPWS SR1-86(1992) solved for the temperature. Python 3.11, SciPy 1.17.1."""
from math import exp
from scipy.optimize import brentq


def saturation(t):  # MPa at °C: Wagner & Pruss (1993), J. Phys. Chem. Ref. Data 22:783
    k = t + 273.15; x = 1 - k / 647.096
    return 22.064 * exp(647.096 / k * (-7.85951783 * x + 1.84408259 * x**1.5 - 11.7866497 * x**3 + 22.6807411 * x**3.5 - 15.9618719 * x**4 + 1.80122502 * x**7.5))


def air(altitude):  # bar: the barometric formula of ISO 2533:1975, 79,495 Pa at 2,000 m
    return 1.01325 * (1 - 0.0065 * altitude / 288.15) ** (9.80665 / 0.0065 / 287.05287)


print(f"1 bar gauge at sea level {brentq(lambda t: saturation(t) - 0.201325, 50, 250):.4f} °C (IAPWS-95: 120.419)")
for gauge, altitude in ((1.0, 1000), (1.0, 2000), (1.2, 3000)):
    print(f"{gauge} bar gauge at {altitude} m: {brentq(lambda t: saturation(t) - (gauge + air(altitude)) / 10, 50, 250):.4f} °C; air {air(altitude):.6f} bar")
