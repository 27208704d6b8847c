"""Make climate_default.npz again from the two public packages that its numbers come from.

Not run by the design or by the tests. In a scratch folder::

    pip download --no-deps pvcz==0.3.0 gsee-climate-data==1.0.0
    python rebuild_climate.py pvcz-0.3.0.tar.gz gsee_climate_data-1.0.0-py3-none-any.whl climate_default.npz

Needs numpy and pandas. Both archives are checked against their SHA-256 before anything is read, because one of
them holds a pickle and a pickle runs code; afterwards every array is compared with its fingerprint.
"""

import hashlib
import io
import sys
import tarfile
import zipfile
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

ARCHIVES = (
    "810404cb1fd74f5021b0038a7283dde3ad4520a9a2c42441d3b6ee5a79a1cd30",
    "fc5036080d7993542c7fda4652a0541262fb4c638d4f9257bdae26e2e2f35176",
)
CELLS = "PVCZ-2019_ver0p2_world_PV_climate_stressors_and_zones.pkl"
NODES = "gsee_climate_data/data/merra2_rad3x3_2011-2015_pdfs_land_prox.npz"
FINGERPRINTS = {
    "ghi_kwh_m2_yr": "07ed04b53f5cf58a",
    "tmean_dc": "720e16e930909a90",
    "trange_c": "627be34cb86798dc",
    "wind_rms_dms": "903abbd3b20ebd08",
    "share": "3d129230e3d5fb9c",
    "share_lat": "9f6fd5f18bc53617",
    "share_lon": "e9fc0cf0b2213e83",
}
"""First 16 digits of the SHA-256 of each array's bytes."""
LAT0, LON0, STEP = -59.875, -179.875, 0.25
SHARE_SCALE = 32767.5
DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])

Arrays = dict[str, NDArray[Any]]


def checked(path: Path, digest: str) -> bytes:
    """The bytes of an archive, refused where they are not the ones this script was written for."""
    content = path.read_bytes()
    found = hashlib.sha256(content).hexdigest()
    if found != digest:
        message = f"{path}: SHA-256 {found}, expected {digest}"
        raise SystemExit(message)
    return content


def cell_arrays(archive: bytes) -> Arrays:
    """Annual irradiation, temperature, range and wind on the 0.25 degree grid."""
    with tarfile.open(fileobj=io.BytesIO(archive)) as packed:
        member = next(m for m in packed.getmembers() if m.name.endswith(CELLS))
        stream = packed.extractfile(member)
        if stream is None:
            message = f"{member.name} is not a file"
            raise SystemExit(message)
        table = pd.read_pickle(io.BytesIO(stream.read()))  # noqa: S301  the archive's hash was checked
    # The difference of the extremes is taken in the source's 16-bit floats: in 64 bits 4,651 cells come out 1 K off.
    swing = (table["T_ambient_max"] - table["T_ambient_min"]).to_numpy(np.float64)
    column = {name: table[name].to_numpy(np.float64) for name in ("lat", "lon", "GHI_mean", "T_ambient_mean")}
    wind = table["wind_speed_rms"].to_numpy(np.float64)
    i = np.rint((column["lat"] - LAT0) / STEP).astype(int)
    j = np.rint((column["lon"] - LON0) / STEP).astype(int)
    ghi = np.zeros((600, 1440), np.uint16)
    mean = np.full((600, 1440), -32768, np.int16)
    spread, rms = np.zeros((600, 1440), np.uint8), np.zeros((600, 1440), np.uint8)
    ghi[i, j] = np.rint(column["GHI_mean"] * 365.25).astype(np.uint16)
    mean[i, j] = np.rint(column["T_ambient_mean"] * 10.0).astype(np.int16)
    spread[i, j] = np.clip(np.rint(swing), 0, 255).astype(np.uint8)
    rms[i, j] = np.clip(np.rint(wind * 10.0), 0, 255).astype(np.uint8)
    return {"ghi_kwh_m2_yr": ghi, "tmean_dc": mean, "trange_c": spread, "wind_rms_dms": rms}


def share_arrays(archive: bytes) -> Arrays:
    """Share of each month in the year's irradiation on the 3 degree nodes; nodes without all months stay 0."""
    with zipfile.ZipFile(io.BytesIO(archive)) as packed:
        source = np.load(io.BytesIO(packed.read(NODES)), allow_pickle=False)
    # The bin sums stay in the source's 32-bit floats: in 64 bits 5 shares differ by one count.
    values = np.maximum(np.nan_to_num(source["xk"], nan=0.0), 0)
    weights = np.nan_to_num(source["pk"], nan=0.0)
    total = weights.sum(axis=-1)
    filled = (total > 0).all(axis=-1)
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = (values * weights).sum(axis=-1) / total
        month = mean * DAYS
        scaled = np.rint(month / month.sum(axis=-1, keepdims=True) * SHARE_SCALE)
    share = np.where(filled[..., None], scaled, 0.0).astype(np.uint16)
    return {"share": share, "share_lat": source["lat"], "share_lon": source["lon"]}


def main(cells: str, nodes: str, target: str) -> None:
    """Read both archives, compare, write."""
    arrays = cell_arrays(checked(Path(cells), ARCHIVES[0])) | share_arrays(checked(Path(nodes), ARCHIVES[1]))
    for name, expected in FINGERPRINTS.items():
        found = hashlib.sha256(np.ascontiguousarray(arrays[name]).tobytes()).hexdigest()[:16]
        sys.stdout.write(f"{name}: {'as shipped' if found == expected else f'{found}, expected {expected}'}\n")
    scalars: Arrays = {
        "lat0": np.array(LAT0),
        "lon0": np.array(LON0),
        "step": np.array(STEP),
        "share_scale": np.array(SHARE_SCALE),
    }
    np.savez_compressed(target, **(arrays | scalars))  # type: ignore[arg-type]


if __name__ == "__main__":
    main(*sys.argv[1:4])
