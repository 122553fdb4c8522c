"""
Saturation index and precipitation potential of calcite by PHREEQC 3.8.9 (USGS, public domain) with its data base wateq4f.dat, which holds the
constants of Plummer & Busenberg (1982). Run: python3 water-scale-phreeqc.py PATH_OF_PHREEQC PATH_OF_WATEQ4F.DAT

The waters are the five examples of DIN 38404-10:1995, table 6, with all their ions; of each also the dissolved solids as the sum of its ions.
PHREEQC pairs magnesium and sulfate too and takes the activity coefficients of WATEQ, so it is a check of the whole simplification.
"""
import os
import subprocess
import sys
import tempfile

# pH, temperature of reading, of judging, then mmol/L: inorganic carbon, Ca, Mg, Na, K, Cl, NO3, SO4
WATERS = [
    (6.90, 20, 10, 6.680, 3.50, 0.75, 2.05, 0.15, 2.50, 0.50, 1.20),
    (8.20, 15, 11, 1.661, 1.24, 0.41, 0.90, 0.07, 0.90, 0.55, 0.58),
    (7.90, 20, 5.5, 2.456, 1.22, 0.35, 0.15, 0.05, 0.16, 0.07, 0.35),
    (8.40, 17, 12, 0.941, 0.57, 0.10, 0.21, 0.02, 0.34, 0.08, 0.10),
    (8.90, 20, 10, 0.329, 0.30, 0.15, 0.30, 0.05, 0.30, 0.20, 0.20),
]
MASS = dict(Ca=40.078, Mg=24.305, Na=22.990, K=39.098, Cl=35.45, NO3=62.004, SO4=96.056, HCO3=61.016)
CACO3 = 100.086


def phreeqc(text):
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "in")
        open(path, "w").write(text.replace("SELECTED.TXT", os.path.join(folder, "selected")))
        subprocess.run([sys.argv[1], path, path + ".out", sys.argv[2]], check=True, capture_output=True, cwd=folder)
        return [[float(it) for it in line.split()] for line in open(os.path.join(folder, "selected")).read().splitlines()[1:] if line.strip()]


def solution(water):
    ph, t, _, carbon, ca, mg, na, k, cl, no3, so4 = water
    return f"""SOLUTION 1
 units mmol/kgw
 temp {t}
 pH {ph}
 C {carbon}
 Ca {ca}
 Mg {mg}
 Na {na}
 K {k}
 Cl {cl}
 N(5) {no3}
 S(6) {so4}
SELECTED_OUTPUT 1
 -file SELECTED.TXT
 -reset false
 -high_precision true
USER_PUNCH 1
 -headings alkalinity index calcium ph
 10 PUNCH ALK * 1000, SI("Calcite"), TOT("Ca") * 1000, -LA("H+")
"""


for number, water in enumerate(WATERS, 1):
    ph, t, judged, carbon, ca, mg, na, k, cl, no3, so4 = water
    (alkalinity, *_), = phreeqc(solution(water) + "END\n")
    solids = sum(MASS[ion] * amount for ion, amount in dict(Ca=ca, Mg=mg, Na=na, K=k, Cl=cl, NO3=no3, SO4=so4, HCO3=alkalinity).items())
    for air, gas in (("closed", ""), ("open", " CO2(g) -3.4 10\n")):
        for at in (judged, 60, 90):
            rows = phreeqc(
                solution(water) + "SAVE solution 1\nEND\n"
                + f"USE solution 1\nREACTION_TEMPERATURE 1\n {at}\nEQUILIBRIUM_PHASES 1\n{gas}SAVE solution 2\nEND\n"
                + f"USE solution 2\nREACTION_TEMPERATURE 1\n {at}\nEQUILIBRIUM_PHASES 2\n Calcite 0 10\n{gas}END\n")
            (_, index, before, _), (_, _, after, ph_after) = rows[-2:]
            print(number, f"WATER.SCALE({ph}, {t}, {ca * CACO3:.6g}, {alkalinity * CACO3 / 2:.6g}, {solids:.6g}, {at}, \"{air}\")",
                  f"index {index:.4f} potential {(before - after) * CACO3:.3f} mg/L pH after {ph_after:.4f}")
