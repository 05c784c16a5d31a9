"""How the shipped fonts were made: unpack two openly licensed npm packages and take seven faces, unmodified.

Usage: python tools/fetch_fonts.py            (needs npm; asks whatever registry npm is set up for)

Writes the TTF files, each family's licence text and `manifest.json` (package, version, licence, sha256)
into `src/halfdrop/drawing/fonts`. The faces are whole, not subsets, so no glyph that a label may need was
lost, and they are byte for byte what the package holds, as the Open Font License asks of a font that keeps
its name.
"""

from __future__ import annotations

import hashlib
import json
import subprocess
import tarfile
import tempfile
from pathlib import Path

HOME = Path(__file__).resolve().parent.parent / "src" / "halfdrop" / "drawing" / "fonts"

#: package, version, file stem, faces
FAMILIES = (
    (
        "@expo-google-fonts/barlow-semi-condensed",
        "0.4.1",
        "BarlowSemiCondensed",
        ("400Regular", "400Regular_Italic", "500Medium", "600SemiBold"),
    ),
    ("@expo-google-fonts/literata", "0.4.3", "Literata", ("400Regular", "400Regular_Italic", "600SemiBold")),
)


def main() -> None:
    """Fetch, unpack and write the manifest."""
    faces: dict[str, dict[str, str]] = {}
    with tempfile.TemporaryDirectory() as temp:
        for package, version, stem, names in FAMILIES:
            packed = subprocess.run(
                ["npm", "pack", "--silent", f"{package}@{version}"],
                cwd=temp,
                check=True,
                capture_output=True,
                text=True,
            ).stdout.split()[-1]
            with tarfile.open(Path(temp) / packed) as archive:
                for name in names:
                    data = _read(archive, f"package/{name}/{stem}_{name}.ttf")
                    file = f"{stem}-{name.lstrip('0123456789').replace('Regular_Italic', 'Italic')}.ttf"
                    (HOME / file).write_bytes(data)
                    faces[file] = {
                        "package": package,
                        "version": version,
                        "licence": "OFL-1.1",
                        "sha256": hashlib.sha256(data).hexdigest(),
                    }
                (HOME / f"{stem}-OFL.txt").write_bytes(_read(archive, "package/LICENSE_FONT"))
    (HOME / "manifest.json").write_text(json.dumps(faces, indent=2, sort_keys=True) + "\n", encoding="utf-8")


def _read(archive: tarfile.TarFile, member: str) -> bytes:
    stream = archive.extractfile(member)
    if stream is None:
        raise SystemExit(f"{member} is not a file in the package")
    return stream.read()


if __name__ == "__main__":
    main()
