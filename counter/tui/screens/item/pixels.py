"""A photograph as coloured halves of character cells, read with Pillow where it is installed.

A cell is about twice as tall as wide, so that its upper and lower half are square points: the sign ▀
in one colour on a ground of another shows both. Nothing here knows the screen; it may run in a thread.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

from counter.values.errors import UserError

#: Larger files and pictures are not opened: they would take the memory of a small machine.
MOST_BYTES = 60_000_000
MOST_POINTS = 50_000_000
_KINDS = ("JPEG", "PNG", "TIFF", "WEBP", "GIF", "BMP")

Colour = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Points:
    """A picture of `columns` by an even number of rows of points, each red, green, blue (0 to 255)."""

    columns: int
    rows: int
    colours: bytes

    def at(self, column: int, row: int) -> Colour:
        """The colour of a point."""
        start = 3 * (row * self.columns + column)
        red, green, blue = self.colours[start : start + 3]
        return red, green, blue


def read_points(path: Path, columns: int, rows: int) -> Points:
    """The picture in a file, fitted into so many cells. Raises UserError when it cannot be shown."""
    try:
        if not path.is_file():
            raise UserError("There is no such file.")
        if path.stat().st_size > MOST_BYTES:
            raise UserError(f"The file is larger than {MOST_BYTES // 10**6} MB: keep a smaller copy.")
    except (OSError, ValueError) as fault:
        raise UserError("The file cannot be opened.") from fault
    try:
        from PIL import Image
    except ImportError:
        raise UserError(f"To see it here, say: {sys.executable} -m pip install pillow") from None
    try:
        with Image.open(path, formats=_KINDS) as image:
            return _fitted(image, max(columns, 1), max(rows, 1))
    except UserError:
        raise
    except MemoryError:
        raise UserError("There is not enough memory for it: keep a smaller copy.") from None
    except Image.DecompressionBombError:
        raise UserError(_TOO_LARGE) from None
    except Exception as fault:  # a broken file makes a decoder fail in many ways; each means the same
        raise UserError("The file cannot be read as a picture.") from fault


_TOO_LARGE = f"The picture has more than {MOST_POINTS // 10**6} million points: keep a smaller copy."


def _fitted(image: object, columns: int, rows: int) -> Points:
    from PIL import Image, ImageOps

    assert isinstance(image, Image.Image)
    if image.width * image.height > MOST_POINTS:
        raise UserError(_TOO_LARGE)
    image.draft("RGB", (columns * 4, rows * 8))  # a camera's picture is read at a fraction of its size
    turned = ImageOps.exif_transpose(image).convert("RGB")
    small = ImageOps.contain(turned, (columns, rows * 2))
    if small.height % 2:
        small = ImageOps.expand(small, (0, 0, 0, 1))
    return Points(small.width, small.height, small.tobytes())
