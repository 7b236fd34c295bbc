"""A grid of waters solved by worker processes, and a state sent to one and back."""

from __future__ import annotations

import distributed
import numpy as np
import xarray as xr

import halimeda as hm


def solved_chunk(temperature, alkalinity):
    """What one worker computes of one block."""
    return hm.carbonate(
        temperature_celsius=temperature,
        practical_salinity=35.0,
        alkalinity_umol_per_kg=alkalinity,
        ph_total=8.1,
        outputs="aragonite_saturation",
    ).aragonite_saturation


def main():
    """Print "equal" where the workers agree with this process."""
    temperature = xr.DataArray(np.linspace(20, 30, 40), dims="t").chunk(t=10)
    alkalinity = xr.DataArray(np.linspace(2000, 3500, 30), dims="a").chunk(a=15)
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
        ) as cluster,
        distributed.Client(cluster) as client,
    ):
        result = xr.apply_ufunc(
            solved_chunk, temperature, alkalinity, dask="parallelized", output_dtypes=[float]
        ).compute()
        state = hm.carbonate(
            temperature_celsius=25.0,
            practical_salinity=35.0,
            alkalinity_umol_per_kg=2800.0,
            ph_total=8.1,
        )
        assert client.submit(lambda state: state, state).result() == state
    expected = solved_chunk(temperature.values[:, None], alkalinity.values)
    assert np.array_equal(result.transpose("t", "a").values, expected)
    print("equal")


if __name__ == "__main__":
    main()
