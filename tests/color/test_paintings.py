"""The demo's two paintings are made by the script that is in the repository, and the demo records their colors."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from PIL import Image

from halfdrop.color.ciede2000 import delta_e
from halfdrop.color.job_swatches import swatches_of
from halfdrop.color.palette import palette_of_file
from halfdrop.job.read import read_job

ROOT = Path(__file__).parents[2]


def _script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("paintings", ROOT / "tools" / "paintings.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_script_paints_what_is_kept(tmp_path: Path) -> None:
    """Painted anew, each picture is the kept one but for the last digit of a filter, and twice painted it is the same."""
    script = _script()
    script.main(tmp_path)
    for name in ("harbor", "carnival"):
        kept = np.asarray(Image.open(ROOT / "examples" / f"{name}.png").convert("RGB"), dtype=float)
        made = np.asarray(Image.open(tmp_path / f"{name}.png").convert("RGB"), dtype=float)
        assert made.shape == kept.shape
        assert np.abs(made - kept).mean() < 2.0
        assert (tmp_path / f"{name}.png").stat().st_size < 100_000
    first = (tmp_path / "harbor.png").read_bytes()
    script.main(tmp_path)
    assert (tmp_path / "harbor.png").read_bytes() == first


@pytest.mark.parametrize("name", ["harbor", "carnival"])
def test_the_demo_records_what_its_pictures_show(name: str) -> None:
    """Each color the demo gives a painting is in its picture, with about the share it has there."""
    job = read_job(ROOT / "examples" / "quince.yaml").job
    work = job.rooms["living"].art[name]
    assert work.image == f"{name}.png"
    assert work.colors is not None
    seen = palette_of_file(ROOT / "examples" / f"{name}.png", recorded=True).colors
    labs = np.array([c.lab for c in seen])
    for key, share in work.colors.items():
        away = delta_e(np.array(swatches_of(job.swatches, [key])[key].lab), labs)
        nearest = int(np.argmin(away))
        assert float(away[nearest]) < 4.0, key
        assert seen[nearest].share == pytest.approx(share, abs=0.04), key
