"""Writes solvent_references.csv: properties of the catalogue's pure solvents from open libraries.

Needs only packages from PyPI: pip install chemicals==1.5.2 thermo==0.6.1
Run in this folder. Every data method the library has for a substance gives one row a temperature,
inside the range it states for itself; estimation methods are left out, because they are not
measurements.
"""

import csv
import math
import warnings

from chemicals import MW
from thermo import (
    EnthalpyVaporization,
    HeatCapacityLiquid,
    SurfaceTension,
    VaporPressure,
    ViscosityLiquid,
    VolumeLiquid,
)

warnings.simplefilter("ignore")

SOLVENTS = {
    "water": "7732-18-5",
    "methanol": "67-56-1",
    "ethanol": "64-17-5",
    "n-propanol": "71-23-8",
    "isopropanol": "67-63-0",
    "n-butanol": "71-36-3",
    "isobutanol": "78-83-1",
    "sec-butanol": "78-92-2",
    "acetone": "67-64-1",
    "methyl ethyl ketone": "78-93-3",
    "methyl isobutyl ketone": "108-10-1",
    "methyl n-amyl ketone": "110-43-0",
    "cyclohexanone": "108-94-1",
    "diacetone alcohol": "123-42-2",
    "methyl acetate": "79-20-9",
    "ethyl acetate": "141-78-6",
    "n-propyl acetate": "109-60-4",
    "isopropyl acetate": "108-21-4",
    "n-butyl acetate": "123-86-4",
    "isobutyl acetate": "110-19-0",
    "n-amyl acetate": "628-63-7",
    "dimethyl carbonate": "616-38-6",
    "ethyl lactate": "97-64-3",
    "2-butoxyethanol": "111-76-2",
    "diethylene glycol butyl ether": "112-34-5",
    "toluene": "108-88-3",
    "o-xylene": "95-47-6",
    "m-xylene": "108-38-3",
    "p-xylene": "106-42-3",
    "ethylbenzene": "100-41-4",
    "1,2,4-trimethylbenzene": "95-63-6",
    "n-hexane": "110-54-3",
    "n-heptane": "142-82-5",
    "n-octane": "111-65-9",
    "n-nonane": "111-84-2",
    "n-decane": "124-18-5",
    "n-undecane": "1120-21-4",
    "cyclohexane": "110-82-7",
    "methylcyclohexane": "108-87-2",
    "alpha-pinene": "80-56-8",
    "d-limonene": "5989-27-5",
    "propylene glycol": "57-55-6",
    "glycerol": "56-81-5",
}

# Data methods, by property; all others estimate from a critical point or a group count.
DATA = {
    "vapour_pressure": {
        "WAGNER_MCGARRY",
        "WAGNER_POLING",
        "ANTOINE_POLING",
        "DIPPR_PERRY_8E",
        "VDI_PPDS",
        "VDI_TABULAR",
        "LANDOLT",
        "IAPWS",
        "HEOS_FIT",
        "ALCOCK_ELEMENTS",
        "REFPROP_FIT",
    },
    "density": {
        "DIPPR_PERRY_8E",
        "VDI_PPDS",
        "CRC_INORG_L",
        "VDI_TABULAR",
        "HEOS_FIT",
        "RACKETTFIT",
    },
    "viscosity": {
        "DUTT_PRASAD",
        "VISWANATH_NATARAJAN_3",
        "VISWANATH_NATARAJAN_2",
        "VISWANATH_NATARAJAN_2E",
        "VDI_PPDS",
        "DIPPR_PERRY_8E",
        "VDI_TABULAR",
        "HEOS_FIT",
        "MU_IAPWS",
    },
    "surface_tension": {
        "STREFPROP",
        "SOMAYAJULU2",
        "SOMAYAJULU",
        "VDI_PPDS",
        "VDI_TABULAR",
        "JASPER",
        "REFPROP",
        "REFPROP_FIT",
        "IAPWS",
        "Fit 2023",
    },
    "heat_of_vaporisation": {
        "CRC_HVAP_298",
        "VDI_PPDS",
        "DIPPR_PERRY_8E",
        "VDI_TABULAR",
        "HEOS_FIT",
    },
    "heat_capacity": {
        "ZABRANSKY_SPLINE",
        "ZABRANSKY_QUASIPOLYNOMIAL",
        "ZABRANSKY_SPLINE_C",
        "ZABRANSKY_QUASIPOLYNOMIAL_C",
        "ZABRANSKY_SPLINE_SAT",
        "ZABRANSKY_QUASIPOLYNOMIAL_SAT",
        "VDI_TABULAR",
        "CRCSTD",
        "POLING_CONST",
        "HEOS_FIT",
    },
}
UNIT = {
    "vapour_pressure": "Pa",
    "density": "kg/m3",
    "viscosity": "mPa.s",
    "surface_tension": "mN/m",
    "heat_of_vaporisation": "kJ/mol",
    "heat_capacity": "J/mol",
}
TEMPERATURES_C = {
    "vapour_pressure": (0, 20, 40, 60),
    "density": (0, 20, 40, 60),
    "viscosity": (0, 20, 40, 60),
    "surface_tension": (0, 20, 40, 60),
    "heat_of_vaporisation": (0, 25, 60),
    "heat_capacity": (25,),
}
KIND = {
    "vapour_pressure": VaporPressure,
    "density": VolumeLiquid,
    "viscosity": ViscosityLiquid,
    "surface_tension": SurfaceTension,
    "heat_of_vaporisation": EnthalpyVaporization,
    "heat_capacity": HeatCapacityLiquid,
}


def rows():
    for name, cas in SOLVENTS.items():
        for prop, kind in KIND.items():
            molar_mass = MW(cas)
            obj = kind(CASRN=cas, MW=molar_mass)
            for method in sorted(obj.all_methods & DATA[prop]):
                for t_c in TEMPERATURES_C[prop]:
                    t_k = t_c + 273.15
                    low, high = obj.T_limits.get(method, (0.0, math.inf))
                    if method in ("CRC_HVAP_298", "CRCSTD", "POLING_CONST"):
                        if t_c != 25:
                            continue
                    elif not low <= t_k <= high:
                        continue
                    value = obj.calculate(t_k, method)
                    if (
                        isinstance(value, complex)
                        or value is None
                        or not math.isfinite(value)
                        or value <= 0
                    ):
                        continue
                    if prop == "density":
                        value = molar_mass * 1e-3 / value
                    if prop in ("viscosity", "surface_tension"):
                        value *= 1e3
                    if prop == "heat_of_vaporisation":
                        value *= 1e-3
                    yield (
                        name,
                        prop,
                        t_c,
                        f"{value:.5g}",
                        UNIT[prop],
                        f"{method} (chemicals 1.5.2, thermo 0.6.1)",
                    )


with open("solvent_references.csv", "w", newline="") as f:
    out = csv.writer(f, lineterminator="\n")
    out.writerow(["solvent", "property", "temperature_c", "value", "unit", "source"])
    out.writerows(rows())
