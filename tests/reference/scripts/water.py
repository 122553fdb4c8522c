"""Water chemistry written out on its own, at 40 digits. Python 3.11, mpmath 1.3.0."""
from mpmath import mp, mpf, log10, sqrt

mp.dps = 40
mass = {k: mpf(v) for k, v in dict(H="1.008", C="12.011", O="15.999", Na="22.990", Mg="24.305", S="32.06", Cl="35.45", K="39.098", Ca="40.078").items()}


def weigh(**atoms):
    return sum(mass[a] * n for a, n in atoms.items())


CaCO3 = weigh(Ca=1, C=1, O=3)
HCO3 = weigh(H=1, C=1, O=3)
SO4 = weigh(S=1, O=4)
H2O = weigh(H=2, O=1)


def plummer_busenberg(ph, t, ca, alk, tds):
    T = mpf(t) + mpf("273.15")
    pk2 = mpf("107.8871") + mpf("0.03252849") * T - mpf("5151.79") / T - mpf("38.92561") * log10(T) + mpf("563713.9") / T**2
    pks = mpf("171.9065") + mpf("0.077993") * T - mpf("2839.319") / T - mpf("71.595") * log10(T)
    e = mpf(60954) / (T + 116) - mpf("68.937")
    a = mpf("1.82e6") * (e * T) ** mpf("-1.5")
    i = mpf(tds) / 40000
    pfm = a * (sqrt(i) / (1 + sqrt(i)) - mpf("0.3") * i)
    phs = pk2 - pks - log10(mpf(ca) / CaCO3 / 1000) - log10(mpf(alk) / (CaCO3 / 2) / 1000) + 5 * pfm
    return ph - phs, 2 * phs - ph


def carrier(ph, t, ca, alk, tds):
    a = (log10(mpf(tds)) - 1) / 10
    b = mpf("-13.12") * log10(mpf(t) + 273) + mpf("34.55")
    phs = mpf("9.3") + a + b - (log10(mpf(ca)) - mpf("0.4")) - log10(mpf(alk))
    return ph - phs, 2 * phs - ph


for arguments in ((7.5, 25, 150, 34, 320), (7, 25, 68, 40, 150), (7, 90, 68, 40, 150), (8.2, 5, 200, 180, 400), (6.5, 60, 30, 20, 80)):
    for method in (plummer_busenberg, carrier):
        langelier, ryznar = method(*map(mpf, map(str, arguments)))
        print(method.__name__, arguments, "Langelier", mp.nstr(langelier, 12), "Ryznar", mp.nstr(ryznar, 12))
print("Larson-Skold 25 30 100", mp.nstr((25 / mass["Cl"] + 2 * 30 / SO4) / (100 / (CaCO3 / 2)), 12))
print("Larson-Skold 10 20 40", mp.nstr((10 / mass["Cl"] + 2 * 20 / SO4) / (40 / (CaCO3 / 2)), 12))

salts = {  # molar mass, moles of CaCO3 equivalent
    "MgSO4·7H2O": (mass["Mg"] + SO4 + 7 * H2O, 1),
    "MgSO4 anhydrous": (mass["Mg"] + SO4, 1),
    "MgCl2·6H2O": (mass["Mg"] + 2 * mass["Cl"] + 6 * H2O, 1),
    "CaCl2·2H2O": (mass["Ca"] + 2 * mass["Cl"] + 2 * H2O, 1),
    "CaCl2 anhydrous": (mass["Ca"] + 2 * mass["Cl"], 1),
    "CaSO4·2H2O": (mass["Ca"] + SO4 + 2 * H2O, 1),
    "CaCO3": (CaCO3, 1),
    "NaHCO3": (mass["Na"] + HCO3, mpf(1) / 2),
    "KHCO3": (mass["K"] + HCO3, mpf(1) / 2),
}
for formula, (molar, moles) in salts.items():
    print(formula, "molar mass", mp.nstr(molar, 9), "g for 100 mg/L CaCO3 in 10 L", mp.nstr(100 * 10 * molar / (moles * CaCO3) / 1000, 12))

# 68 mg/L hardness and 40 mg/L alkalinity in 1 L from MgSO4·7H2O and NaHCO3
mg, na = 68 / CaCO3, 2 * 40 / CaCO3
print("grams", mp.nstr(mg * salts["MgSO4·7H2O"][0] / 1000, 12), mp.nstr(na * salts["NaHCO3"][0] / 1000, 12))
print("Mg", mp.nstr(mg * mass["Mg"], 10), "Na", mp.nstr(na * mass["Na"], 10), "HCO3", mp.nstr(na * HCO3, 10), "SO4", mp.nstr(mg * SO4, 10))
# the same with a quarter of the hardness from CaCl2·2H2O, in 5 L
print("grams", *(mp.nstr(x, 12) for x in (5 * mg * mpf(3) / 4 * salts["MgSO4·7H2O"][0] / 1000, 5 * mg / 4 * salts["CaCl2·2H2O"][0] / 1000, 5 * na * salts["NaHCO3"][0] / 1000)))
print("blend 250 5 at 20 %", 250 * 0.2 + 5 * 0.8, "share for 68", mp.nstr(100 * (mpf(68) - 5) / (250 - 5), 12))
