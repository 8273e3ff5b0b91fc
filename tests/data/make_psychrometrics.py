"""Makes psychrometrics.csv: dew point, wet bulb and humidity ratio over a grid of room air.

Needs only PsychroLib (the ASHRAE equations). Run: python make_psychrometrics.py
"""

import csv
import pathlib

import psychrolib

psychrolib.SetUnitSystem(psychrolib.SI)
PRESSURES_PA = (101325, 84000)  # sea level, and about 1500 m up
SOURCE = "PsychroLib 2.5 (ASHRAE equations), computed"

with open(pathlib.Path(__file__).parent / "psychrometrics.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(
        [
            "temperature_degC",
            "relative_humidity_pct",
            "pressure_Pa",
            "saturation_pressure_Pa",
            "dew_point_degC",
            "wet_bulb_degC",
            "humidity_ratio_g_kg",
            "source",
        ]
    )
    for pressure in PRESSURES_PA:
        for t in (5, 10, 15, 20, 25, 30, 40, 50):
            for rh in (10, 20, 35, 50, 65, 80, 90, 100):
                dew = psychrolib.GetTDewPointFromRelHum(t, rh / 100)
                wet = psychrolib.GetTWetBulbFromRelHum(t, rh / 100, pressure)
                if dew < 0.05 or wet < 0.05:
                    continue  # over ice there; this project refers to liquid water
                ratio = psychrolib.GetHumRatioFromRelHum(t, rh / 100, pressure)
                out.writerow(
                    [
                        t,
                        rh,
                        pressure,
                        f"{psychrolib.GetSatVapPres(t):.2f}",
                        f"{dew:.4f}",
                        f"{wet:.4f}",
                        f"{1e3 * ratio:.5f}",
                        SOURCE,
                    ]
                )
