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


def carbonate_constants(t):
    """Plummer & Busenberg (1982), and the ion product of water that PHREEQC's data bases carry beside them: natural K at t °C."""
    T = mpf(t) + mpf("273.15")

    def k(*c):
        c = [mpf(x) for x in c] + [mpf(0)] * (5 - len(c))
        return mpf(10) ** (c[0] + c[1] * T + c[2] / T + c[3] * log10(T) + c[4] / T**2)
    return dict(
        henry=k("108.3865", "0.01985076", "-6919.53", "-40.45154", "669365"), k1=k("-356.3094", "-0.06091964", "21834.37", "126.8339", "-1684915"),
        k2=k("-107.8871", "-0.03252849", "5151.79", "38.92561", "-563713.9"), kw=k("-283.971", "-0.05069842", "13323", "102.24447", "-1119669"),
        cahco3=k("1209.12", "0.31294", "-34765.05", "-478.782"), caco3=k("-1228.732", "-0.299444", "35512.75", "485.818"),
        calcite=k("-171.9065", "-0.077993", "2839.319", "71.595"))


def davies(t, i):
    T = mpf(t) + mpf("273.15")
    a = mpf("1.82e6") * ((mpf(60954) / (T + 116) - mpf("68.937")) * T) ** mpf("-1.5")
    one = mpf(10) ** (-a * (sqrt(i) / (1 + sqrt(i)) - mpf("0.3") * i))
    return one, one**4


def scale(ph, t, ca, alk, tds, at, air):
    """All species as unknowns of one system, solved by Newton's method: no closed form, no nesting."""
    calcium, acid = mpf(ca) / CaCO3 / 1000, 2 * mpf(alk) / CaCO3 / 1000
    i0 = max(mpf(tds) / 40000, 2 * calcium + acid / 2)
    k, (g1, g2) = carbonate_constants(t), davies(t, i0)
    h = mpf(10) ** -mpf(ph)

    def species(k, g1, g2, h, bicarbonate, free):
        carbonate = k["k2"] * bicarbonate * g1 / h / g2
        return dict(
            co2=h * bicarbonate * g1 / k["k1"], co3=carbonate, oh=k["kw"] / h / g1, h=h / g1,
            pair1=k["cahco3"] * free * g2 * bicarbonate, pair2=k["caco3"] * free * g2 * carbonate * g2)

    def totals(s, bicarbonate, free):
        return (bicarbonate + 2 * s["co3"] + s["oh"] - s["h"] + s["pair1"] + 2 * s["pair2"], free + s["pair1"] + s["pair2"],
                bicarbonate + s["co3"] + s["co2"] + s["pair1"] + s["pair2"])

    def read(lb, lf):
        b, f = mpf(10) ** lb, mpf(10) ** lf
        a, c, _ = totals(species(k, g1, g2, h, b, f), b, f)
        return [a / acid - 1, c / calcium - 1]
    lb, lf = mp.findroot(read, (log10(acid), log10(calcium)))
    b, f = mpf(10) ** lb, mpf(10) ** lf
    carbon = totals(species(k, g1, g2, h, b, f), b, f)[2]

    k = carbonate_constants(at)
    air_co2 = k["henry"] * mpf(10) ** mpf("-3.4")

    def hot(saturated):
        def system(lh, lb, lf, x):
            fallen = x * calcium
            g1, g2 = davies(at, i0 - 3 * fallen)
            h, b, f = mpf(10) ** lh, mpf(10) ** lb, mpf(10) ** lf
            s = species(k, g1, g2, h, b, f)
            a, c, total = totals(s, b, f)
            index = log10(f * g2 * s["co3"] * g2 / k["calcite"])
            return [a - (acid - 2 * fallen), c - (calcium - fallen), s["co2"] - air_co2 if air == "open" else total - (carbon - fallen)], index
        scaled = lambda lh, lb, lf, x: [r * 1000 for r in system(lh, lb, lf, x)[0]] + [system(lh, lb, lf, x)[1] if saturated else x]
        start = (mpf(-8) if air == "open" else mpf(-7), log10(acid), log10(calcium), mpf("0.1") if saturated else mpf(0))
        lh, lb, lf, x = mp.findroot(scaled, start, maxsteps=200)
        return system(lh, lb, lf, x)[1], x * calcium * CaCO3 * 1000, -lh
    return hot(False)[0], hot(True)[1], hot(True)[2]


for arguments in ((7.3, 15, 250, 220, 400, 90, "closed"), (7.3, 15, 250, 220, 400, 90, "open"), (7.5, 25, 150, 34, 320, 90, "closed"), (7.8, 12, 120, 90, 220, 60, "closed"),
                  (6.5, 20, 60, 40, 120, 25, "closed"), (7, 25, 68, 40, 150, 25, "open")):
    print("WATER.SCALE", arguments, *(mp.nstr(x, 12) for x in scale(*arguments)))
