"""Writes unifac_reference.csv: activity coefficients of random blends by the package `thermo`.

Needs Python 3.11+ with thermo (0.6.1 was used). Run:  python make_unifac_reference.py
200 blends of 2 to 5 solvents of the catalogue at 0 to 50 degC, mole fractions from a flat Dirichlet
distribution; half with each table. One row for each species of a blend; rows of a blend share its
number. The groups are those of the catalogue, by name; `thermo` supplies sizes and interaction
parameters from its own tables.
"""

import csv
import pathlib
import random

import tomllib
from thermo.unifac import DOUFIP2006, DOUFSG, UFIP, UFSG, UNIFAC

HERE = pathlib.Path(__file__).parent
TABLES = {
    "original": (0, UFSG, UFIP),
    "dortmund": (1, DOUFSG, DOUFIP2006),
}
BLENDS = 200
COLUMNS = (
    "blend",
    "table",
    "temperature_C",
    "solvent",
    "groups",
    "mole_fraction",
    "gamma",
    "source",
)


def catalogue():
    """Pure solvents of data/solvents as {name: {table: {group: n}}}."""
    out = {}
    for path in sorted((HERE / "../../data/solvents").glob("*.toml")):
        with open(path, "rb") as f:
            for solvent in tomllib.load(f)["solvent"]:
                if "surrogate" not in solvent:
                    out[solvent["name"]] = {table: solvent["unifac"][table] for table in TABLES}
    return out


def gammas(table, temperature, x, groups):
    version, subgroups, interactions = TABLES[table]
    ids = {}
    for number, group in subgroups.items():
        ids.setdefault(group.group.strip("<>"), number)
    chemgroups = [{ids[name]: n for name, n in g.items()} for g in groups]
    return UNIFAC.from_subgroups(
        T=temperature,
        xs=x,
        chemgroups=chemgroups,
        version=version,
        subgroups=subgroups,
        interaction_data=interactions,
    ).gammas()


def main():
    rng = random.Random(20240607)
    solvents = catalogue()
    with open(HERE / "unifac_reference.csv", "w", newline="", encoding="utf-8") as f:
        out = csv.writer(f, lineterminator="\n")
        out.writerow(
            [
                "blend",
                "table",
                "temperature_C",
                "solvent",
                "groups",
                "mole_fraction",
                "gamma",
                "source",
            ]
        )
        for blend in range(BLENDS):
            table = ("original", "dortmund")[blend % 2]
            names = rng.sample(sorted(solvents), rng.randint(2, 5))
            weights = [rng.expovariate(1.0) for _ in names]
            x = [w / sum(weights) for w in weights]
            celsius = round(rng.uniform(0.0, 50.0), 2)
            groups = [solvents[name][table] for name in names]
            gamma = gammas(table, celsius + 273.15, x, groups)
            for name, g, xi, gi in zip(names, groups, x, gamma, strict=True):
                text = "; ".join(f"{k}:{n}" for k, n in g.items())
                source = "thermo 0.6.1"
                out.writerow([blend, table, celsius, name, text, repr(xi), repr(gi), source])


main()
