#!/usr/bin/env python3
"""Draws the pictures of the invented boat Marram: stand-ins for a surveyor's photographs.

Standard library only. Writes one SVG of 1600 x 1200 a picture into the folder given:

    python3 draw.py build          all pictures
    python3 draw.py build stem     those whose name contains `stem`

`render.sh` turns them into the JPEG files of ../marram/pictures. Every picture says that it is drawn and invented.
"""
import sys
from pathlib import Path

import inside
import outside

PICTURES = {**outside.PICTURES, **inside.PICTURES}


def main():
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else "build")
    wanted = sys.argv[2] if len(sys.argv) > 2 else ""
    folder.mkdir(parents=True, exist_ok=True)
    for name, draw in PICTURES.items():
        if wanted in name:
            (folder / f"{name}.svg").write_text(draw().svg(), encoding="utf-8")


main()
