"""``python -m service``."""

import os
import sys

# The matrices of a roof are small: several threads of linear algebra would only wait for each other.
for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(name, "1")

from service.cli import main  # noqa: E402  (the threads must be set before numpy is imported)

if __name__ == "__main__":
    sys.exit(main())
