"""Tables of drying coats: the single coat bit for bit, shapes, bad rows, progress, Ctrl-C."""

from __future__ import annotations

import signal
import subprocess
import sys
import textwrap
import time
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import mistcoat as mc
import numpy as np
import pytest
from mistcoat.columns import dry

BASE: dict[str, Any] = {
    "wet_thickness_um": 25.0,
    "temperature_degC": 21.0,
    "relative_humidity_pct": 55.0,
    "solids_pct": 15.0,
}


def thinner() -> mc.Blend:
    return mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")


def single(**changes: float) -> mc.Drying:
    s = {**BASE, "air_speed_m_s": 0.15, "binder_tg_degC": 50.0, **changes}
    room = mc.Room(
        temperature=mc.Temperature(s["temperature_degC"], "degC"),
        relative_humidity=mc.Ratio(s["relative_humidity_pct"], "%"),
        air_speed=mc.Velocity(s["air_speed_m_s"], "m/s"),
    )
    return mc.Film(
        thinner(),
        wet_thickness=mc.Length(s["wet_thickness_um"], "um"),
        room=room,
        solids=mc.Ratio(s["solids_pct"], "%"),
        binder_tg=mc.Temperature(s["binder_tg_degC"], "degC"),
        substrate="wood",
    ).dry()


def test_rows_equal_the_single_coat_bit_for_bit() -> None:
    rng = np.random.default_rng(7)
    um, warm, humid = rng.uniform(10, 60, 12), rng.uniform(10, 33, 12), rng.uniform(10, 60, 12)
    table = dry(
        thinner(),
        **{
            **BASE,
            "wet_thickness_um": um,
            "temperature_degC": warm,
            "relative_humidity_pct": humid,
        },
        binder_tg_degC=50,
        substrate="wood",
    )
    for i in range(12):
        one = single(
            wet_thickness_um=um[i], temperature_degC=warm[i], relative_humidity_pct=humid[i]
        )
        assert table["flash_off_s"][i] == one.flash_off.to("s")
        assert table["t50_s"][i] == one.time_to_lose("50 %").to("s")
        assert table["t99_s"][i] == one.time_to_lose("99 %").to("s")
        assert table["coldest_degC"][i] == one.coldest.to("degC")
        assert table["residual_1h_pct"][i] == one.residual_solvent("1 h").to("%")
        for name, mark in (("touch_dry_s", "touch_dry"), ("block_free_s", "handle")):
            try:
                assert table[name][i] == getattr(one, mark).to("s")
            except mc.RangeError:
                assert np.isnan(table[name][i])
        dew = one.film.room.dew_point.to("degC")
        assert table["dew_margin_K"][i] == pytest.approx(one.coldest.to("degC") - dew, abs=1e-9)


def test_results_do_not_depend_on_how_rows_are_split() -> None:
    um = np.random.default_rng(8).uniform(5, 60, 301)
    whole = dry(thinner(), **{**BASE, "wet_thickness_um": um})
    parts = [dry(thinner(), **{**BASE, "wet_thickness_um": p}) for p in np.array_split(um, 7)]
    with ThreadPoolExecutor(3) as pool:
        threaded = list(
            pool.map(
                lambda p: dry(thinner(), **{**BASE, "wet_thickness_um": p}), np.array_split(um, 5)
            )
        )
    for name, column in whole.items():
        np.testing.assert_array_equal(column, np.concatenate([p[name] for p in parts]))
        np.testing.assert_array_equal(column, np.concatenate([p[name] for p in threaded]))


def test_columns_stretch_to_one_shape() -> None:
    um, air = np.array([10.0, 20.0, 40.0]), np.array([0.1, 0.5])
    grid = dry(thinner(), **{**BASE, "wet_thickness_um": um[:, None]}, air_speed_m_s=air[None, :])
    assert all(column.shape == (3, 2) for column in grid.values())
    line = dry(thinner(), **{**BASE, "wet_thickness_um": um}, air_speed_m_s=0.5)
    np.testing.assert_array_equal(grid["flash_off_s"][:, 1], line["flash_off_s"])
    assert np.all(np.diff(grid["flash_off_s"], axis=0) > 0)
    assert np.all(np.diff(grid["flash_off_s"], axis=1) < 0)
    back = dry(thinner(), **{**BASE, "wet_thickness_um": um[::-1]})
    np.testing.assert_array_equal(
        back["flash_off_s"][::-1], dry(thinner(), **{**BASE, "wet_thickness_um": um})["flash_off_s"]
    )
    one = dry(thinner(), **BASE)
    assert type(one["flash_off_s"]) is float
    assert one["flash_off_s"] == single().time_to_lose("90 %").to("s") or one["flash_off_s"] > 0
    with pytest.raises(mc.RangeError, match="temperature_degC"):
        dry(thinner(), **{**BASE, "wet_thickness_um": um, "temperature_degC": air})


def test_paint_with_ratios_is_its_mixes() -> None:
    green = mc.Paint.typical("solvent lacquer", name="hull green")
    settings: dict[str, Any] = {k: v for k, v in BASE.items() if k != "solids_pct"}
    ratios = [0.5, 1.0, 2.0]
    table = dry(green, thinner=thinner(), thinner_per_paint=ratios, **settings)
    for i, ratio in enumerate(ratios):
        mix = green.thin(thinner(), thinner=ratio, paint=1)
        assert dry(mix, **settings)["block_free_s"] == table["block_free_s"][i]
    assert dry(green, thinner="n-butyl acetate", thinner_per_paint=1, **settings)["t50_s"] > 0


def test_columns_of_a_frame_and_names() -> None:
    pandas = pytest.importorskip("pandas")
    frame = pandas.DataFrame({"wet_thickness_um": [10.0, 20.0], "temperature_degC": [18.0, 24.0]})
    table = pandas.DataFrame(
        dry(
            thinner(),
            wet_thickness_um=frame["wet_thickness_um"],
            temperature_degC=frame["temperature_degC"],
            relative_humidity_pct=50,
            solids_pct=15,
            lost_pct=[75],
            residual_h=[0.5],
        )
    )
    assert list(table.columns) == [
        "flash_off_s", "touch_dry_s", "block_free_s", "coldest_degC", "dew_margin_K", "t75_s",
        "residual_0.5h_pct",
    ]  # fmt: skip
    assert (table["t75_s"] < table["flash_off_s"]).all()
    assert table["touch_dry_s"].isna().all()  # no binder was given


def test_bad_rows_are_counted_or_raise() -> None:
    um = np.array([25.0, np.nan, 0.0, -3.0, 40.0])
    with pytest.warns(mc.MistcoatWarning, match=r"2 bad row\(s\), first at index 2.*1 µm to 5 mm"):
        table = dry(thinner(), **{**BASE, "wet_thickness_um": um})
    assert np.isnan(table["flash_off_s"]).tolist() == [False, True, True, True, False]
    with pytest.raises(mc.RangeError, match=r"2 bad row\(s\), first at index 2") as error:
        dry(thinner(), **{**BASE, "wet_thickness_um": um}, errors="raise")
    assert error.value.remedy
    assert error.value.limit == "1 µm to 5 mm"
    clean = dry(thinner(), **{**BASE, "wet_thickness_um": um[[0, 1]]}, errors="raise")
    assert np.isnan(clean["t50_s"]).tolist() == [False, True]


@pytest.mark.parametrize(
    ("changes", "error", "says"),
    [
        ({"thinner": "acetone"}, mc.UnitError, "thinner goes with a Paint"),
        ({"lost_pct": [100]}, mc.RangeError, "99.9"),
        ({"residual_h": [-1]}, mc.RangeError, "0 h or more"),
        ({"errors": "ignore"}, mc.UnknownName, "errors"),
        ({"substrate": "wod"}, mc.UnknownName, "wood"),
        ({"wet_thickness_um": "25 um"}, TypeError, "real numbers"),
        ({"wet_thickness_um": mc.Length("25 um")}, TypeError, "own units"),
        ({"part_length": "20 m"}, mc.RangeError, "part"),
    ],
)
def test_bad_arguments(changes: dict[str, Any], error: type[Exception], says: str) -> None:
    with pytest.raises(error, match=says):
        dry(thinner(), **{"errors": "raise", **BASE, **changes})


def test_a_paint_needs_its_thinner() -> None:
    green = mc.Paint.typical("solvent lacquer", name="hull green")
    with pytest.raises(mc.UnitError, match="needs its thinner"):
        dry(green, wet_thickness_um=25, temperature_degC=21, relative_humidity_pct=50)
    with pytest.raises(mc.RangeError, match="thinner per paint"):
        dry(
            green, thinner="acetone", wet_thickness_um=25, temperature_degC=21,
            relative_humidity_pct=50, errors="raise",
        )  # fmt: skip


def test_progress_ends_at_the_total() -> None:
    seen: list[tuple[int, int]] = []
    um = np.linspace(5, 60, 2000)
    dry(
        thinner(),
        **{**BASE, "wet_thickness_um": um},
        progress=lambda done, total: seen.append((done, total)),
    )
    assert seen[-1] == (2000, 2000)
    assert [done for done, _ in seen] == sorted(done for done, _ in seen)


def test_an_exception_of_progress_stops_and_keeps_what_is_finished() -> None:
    class EnoughError(Exception):
        partial: dict[str, Any]
        finished: Any

    def stop(done: int, total: int) -> None:
        raise EnoughError

    with pytest.raises(EnoughError) as stopped:
        dry(thinner(), **{**BASE, "wet_thickness_um": np.full(200_000, 25.0)}, progress=stop)
    finished = stopped.value.finished
    assert 0 < finished.sum() < finished.size
    np.testing.assert_array_equal(np.isfinite(stopped.value.partial["flash_off_s"]), finished)


LONG = """
    import signal, sys
    import mistcoat as mc, numpy as np
    from mistcoat.columns import dry
    blend = mc.Blend({"acetone": 50, "n-butyl acetate": 50}, basis="mass")
    # A shell that starts its tests in the background leaves them deaf to it.
    signal.signal(signal.SIGINT, signal.default_int_handler)
    print("ready", flush=True)
    try:
        dry(blend, wet_thickness_um=np.full(5_000_000, 25.0), temperature_degC=21,
            relative_humidity_pct=50, solids_pct=15, progress=True)
    except mc.Interrupted as stop:
        flash = stop.partial["flash_off_s"]
        assert isinstance(stop, KeyboardInterrupt)
        assert stop.finished.shape == flash.shape
        assert (np.isfinite(flash) == stop.finished).all()
        print("finished", int(stop.finished.sum()), str(stop), flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="signals of POSIX")
def test_ctrl_c_stops_promptly_and_keeps_what_is_finished() -> None:
    process = subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(LONG)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    time.sleep(2.0)
    process.send_signal(signal.SIGINT)
    # The whole table takes minutes; communicate raises when the stop is not prompt.
    out, err = process.communicate(timeout=30)
    assert process.returncode == 0, err
    assert out.startswith("finished ")
    assert int(out.split()[1]) > 0
    assert ".partial" in out
    assert "drying: " in err
    assert "left" in err
