"""Run every measurement, or those named: `python -m bench audit store`."""

import importlib
import pkgutil
import sys

import bench

for name in sys.argv[1:] or sorted(m.name for m in pkgutil.iter_modules(bench.__path__)):
    module = importlib.import_module(f"bench.{name}")
    if hasattr(module, "main"):
        module.main()
