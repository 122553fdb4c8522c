"""Properties of water and steam from the scientific formulation IAPWS-95, not from the short formulas used here.
Program: iapws 1.5.2 (Debian package python3-iapws 1.5.3-1) with SciPy 1.17.1.
"""
import math
import numpy
import scipy

# This version of iapws takes these names from SciPy, which has since dropped its copies of NumPy's.
for name in "exp log log10 sqrt sin cos sinh cosh tanh arctan absolute pi roots sum where ndarray".split():
    if not hasattr(scipy, name):
        setattr(scipy, name, getattr(numpy, name))

from iapws import IAPWS95
from iapws._iapws import _Liquid

for t in (4, 20, 25, 50, 80, 90, 93, 96):
    water = IAPWS95(T=t + 273.15, P=0.101325)
    print(f"{t} °C: density {water.rho:.4f} kg/m3, viscosity by R12-08 {water.mu * 1e3:.6f} mPa·s")
for t in (20, 25, 60, 85, 93, 96):
    print(f"{t} °C: viscosity by SR6-08 {_Liquid(t + 273.15, 0.1)['mu'] * 1e3:.9f} mPa·s")
for gauge in (0.5, 0.8, 1.0, 1.2, 1.5, 2.0):
    print(f"{gauge} bar gauge: {IAPWS95(P=(gauge + 1.01325) / 10, x=0).T - 273.15:.4f} °C")

# Darcy's law with these properties: 2 g/s at 9 bar through 58.5 mm by 10 mm, and 1.2 g/s at 6 bar through 49 mm by 15 mm at 88 °C.
for flow, pressure, diameter, depth, t in ((2, 9, 58.5, 10, 93), (1.2, 6, 49, 15, 88)):
    water = IAPWS95(T=t + 273.15, P=0.101325)
    area = math.pi * (diameter / 2000) ** 2
    print(f"permeability {flow * 1e-3 / water.rho * water.mu * depth * 1e-3 / (area * pressure * 1e5):.6e} m2")
