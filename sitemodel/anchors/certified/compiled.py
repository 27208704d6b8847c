"""Compiling the inner loops: done once on a machine, read back from disk by every later process."""

from collections.abc import Callable
from pathlib import Path
from typing import Any, ParamSpec, TypeVar, cast

import numba
import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Index = npt.NDArray[np.int64]
Flags = npt.NDArray[np.bool_]
Grid = npt.NDArray[np.bool_]
"""Pair by number of anchors."""

LEAN: dict[str, Any] = {"cache": True, "error_model": "numpy", "_nrt": False}

P = ParamSpec("P")
R = TypeVar("R")


def compiled(function: Callable[P, R]) -> Callable[P, R]:
    """Compile on first use and keep the result on disk beside the module.

    The kept result is renewed when the file of the function itself changes, not when a file that it calls into
    does: compiled functions therefore call compiled functions of their own file only.
    """
    return cast("Callable[P, R]", numba.njit(cache=True, error_model="numpy")(function))


def is_compiled() -> bool:
    """Whether an earlier process left compiled loops beside the modules (a first process needs half a minute)."""
    folder = Path(__file__).parent / "__pycache__"
    return any(folder.glob("labels.*.nbi"))


def compiled_lean(function: Callable[P, R]) -> Callable[P, R]:
    """The same for a function that makes no array itself: not counting who holds which array halves its time."""
    return cast("Callable[P, R]", numba.njit(**LEAN)(function))
