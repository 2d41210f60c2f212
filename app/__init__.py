"""The workbench and the command line; all thinking is in `core`."""
