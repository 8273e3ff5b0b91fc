"""Columns of cup times: shapes, bad rows, foreign containers, agreement with the single value."""

from __future__ import annotations

import pickle
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import mistcoat as mc
import numpy as np
import pytest
from mistcoat import columns

ISO4: dict[str, Any] = {"standard": "ISO 2431", "size": 4}
NU = columns.kinematic_viscosity_mm2_s
TIME = columns.efflux_time_s


def test_float_in_float_out() -> None:
    assert type(NU(35.0, **ISO4)) is float
    assert NU(35, **ISO4) == 1.37 * 35 - 200 / 35
    assert NU(efflux_s=35.0, **ISO4) == mc.FlowCup("ISO 2431", 4).kinematic_viscosity("35 s").to(
        "mm2/s"
    )
    assert TIME(NU(35.0, **ISO4), **ISO4) == pytest.approx(35.0, rel=1e-12)


@pytest.mark.parametrize("cup", mc.FlowCup.list(), ids=str)
def test_every_cup_there_and_back(cup: mc.FlowCup) -> None:
    low, high = (t.to("s") for t in cup.time_range)
    t = np.linspace(low, high, 101)
    nu = NU(t, standard=cup.standard, size=cup.size)
    back = TIME(nu, standard=cup.standard, size=cup.size)
    again = NU(back, standard=cup.standard, size=cup.size)
    np.testing.assert_allclose(again, nu, rtol=1e-9)
    if cup.standard != "GB/T 1723":  # its two lines overlap by 2 % just below 23 s
        np.testing.assert_allclose(back, t, rtol=1e-9)


def test_bit_for_bit_as_numpy_and_whatever_the_chunks() -> None:
    t = np.random.default_rng(1).uniform(30, 100, 300_001)
    whole = NU(t, **ISO4)
    np.testing.assert_array_equal(whole, 1.37 * t - 200.0 / t)
    parts = np.concatenate([NU(part, **ISO4) for part in np.array_split(t, 7)])
    np.testing.assert_array_equal(whole, parts)
    with ThreadPoolExecutor(4) as pool:
        threaded = list(pool.map(lambda part: NU(part, **ISO4), np.array_split(t, 7)))
    np.testing.assert_array_equal(whole, np.concatenate(threaded))


def test_shapes_and_containers() -> None:
    grid = np.linspace(30, 90, 12).reshape(3, 4)
    assert NU(grid, **ISO4).shape == (3, 4)
    np.testing.assert_array_equal(NU(grid.T, **ISO4), NU(grid, **ISO4).T)
    np.testing.assert_array_equal(NU(grid[:, ::2], **ISO4), NU(grid, **ISO4)[:, ::2])
    assert NU([35, 40], **ISO4).tolist() == NU(np.array([35.0, 40.0]), **ISO4).tolist()
    assert NU(np.array([], dtype=float), **ISO4).size == 0
    pandas = pytest.importorskip("pandas")
    series = pandas.Series([35.0, 40.0])
    np.testing.assert_array_equal(NU(series, **ISO4), NU([35.0, 40.0], **ISO4))


def test_bad_rows_are_counted_or_raise() -> None:
    t = np.array([35.0, np.nan, 12.0, -1.0, np.inf, 40.0])
    with pytest.warns(mc.MistcoatWarning, match=r"3 bad row\(s\), first at index 2: 12"):
        nu = NU(t, **ISO4)
    assert np.isnan(nu).tolist() == [False, True, True, True, True, False]
    with pytest.raises(mc.RangeError, match=r"first at index 2.*12\.1 s") as error:
        NU(t, errors="raise", **ISO4)
    assert error.value.remedy
    with pytest.raises(mc.RangeError, match="above 0"):
        TIME(np.array([40.0, 0.0]), errors="raise", **ISO4)
    assert np.isnan(NU(np.array([np.nan, 35.0]), errors="raise", **ISO4)).tolist() == [True, False]


@pytest.mark.parametrize("bad", ["35 s", ["a"], [True], None, mc.Time("35 s"), np.array([1 + 2j])])
def test_what_is_not_a_column_is_refused(bad: Any) -> None:
    with pytest.raises((TypeError, ValueError)):
        NU(bad, **ISO4)


def test_units_and_masks_are_not_stripped() -> None:
    with pytest.raises(TypeError, match="units or mask"):
        NU(np.ma.masked_array([35.0, 40.0], [False, True]), **ISO4)
    pint = pytest.importorskip("pint")
    with pytest.raises(TypeError, match="units or mask"):
        NU(pint.UnitRegistry().Quantity(np.array([35.0]), "min"), **ISO4)


def test_bad_names() -> None:
    with pytest.raises(mc.UnknownName, match="did you mean"):
        NU(35.0, standard="ISO 2413", size=4)
    with pytest.raises(mc.UnknownName, match="errors"):
        NU(35.0, errors="ignore", **ISO4)  # type: ignore[call-overload]


def test_functions_pickle() -> None:
    assert pickle.loads(pickle.dumps(NU))(35.0, **ISO4) == NU(35.0, **ISO4)
