"""Writes further_solvents.toml: liquids of the published lists that the catalogue leaves out.

None has a place on a hobby bench. Properties by the general libraries `thermo` and `chemicals`; the
vapour pressure as three constants fitted to it from -28 to 52 degC. Run it by hand:
python make_further_solvents.py > further_solvents.toml
"""

import numpy as np
from scipy.optimize import least_squares
from thermo import Chemical

LIQUIDS = [
    ("tetrahydrofuran", "109-99-9", "C4H8O", None),
    ("n-pentane", "109-66-0", "C5H12", None),
    ("diisobutyl ketone", "108-83-8", "C9H18O", 227.0),
    ("butyl propionate", "590-01-2", "C7H14O2", None),
    ("2-ethoxyethanol", "110-80-5", "C4H10O2", None),
    ("diethyl ether", "60-29-7", "C4H10O", None),
]

print("# Liquids of the published evaporation lists that the catalogue leaves out; written by")
print("# make_further_solvents.py.")
for name, cas, formula, pressure in LIQUIDS:
    c = Chemical(cas, T=298.15)
    t = np.linspace(245, 325, 33)
    logs = np.log10([c.VaporPressure.T_dependent_property(x) for x in t])
    fit = least_squares(
        lambda p, t=t, logs=logs: p[0] - p[1] / (t + p[2]) - logs,
        [9.5, 1300.0, -50.0],
        x_scale=[1, 1000, 50],
    )
    a, b, k = fit.x
    worst = np.abs(10 ** (fit.fun) - 1).max()
    if pressure is not None:
        a += np.log10(pressure) - (a - b / (298.15 + k))
    rho = [Chemical(cas, T=x).rhol for x in (293.15, 303.15)]
    gamma, mu = c.sigma or 0.024, c.mul or 0.6e-3
    note = "; vapour pressure at 25 °C 227 Pa (from memory)" if pressure is not None else ""
    coefficients = f"[{a:.6f}, {b:.3f}, {k:.3f}]"
    valid = '["-28 °C", "52 °C"]'
    form = f'form = "antoine-log10", coefficients = {coefficients}, valid = {valid}'
    print(f"""
[[solvent]]
name = "{name}"
cas = "{cas}"
source = "thermo 0.6.1, computed{note}"
formula = "{formula}"
boiling_point = {{ value = "{c.Tb:.2f} K" }}
density = {{ at_20C = "{rho[0]:.1f} kg/m3", per_kelvin = "{(rho[1] - rho[0]) / 10:.3f} kg/m3" }}
heat_of_vaporisation = {{ value = "{c.Hvapm / 1000:.2f} kJ/mol" }}
heat_capacity_per_kelvin = {{ value = "{c.Cplm:.1f} J/mol" }}
viscosity = {{ readings = [{{ at = "25 °C", value = "{mu * 1e3:.3f} mPa.s" }}] }}
surface_tension = {{ at_20C = "{gamma * 1e3:.1f} mN/m" }}
vapour_pressure = {{ {form} }} # fit within {100 * worst:.2f} %""")
