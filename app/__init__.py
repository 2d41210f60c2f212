"""The workbench and the command line; all thinking is in `core`."""

__version__ = "0.1.0"
