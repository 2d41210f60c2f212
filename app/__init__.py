"""The workbench and the command line; all thinking is in `core`."""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
"""Matrices are small here: threads to multiply them would cost every start more than they ever bring."""

__version__ = "0.1.0"
