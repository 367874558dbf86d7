"""A paper in the form that the name of its file asks for: a PDF, or a page to print (HTML)."""

from __future__ import annotations

from pathlib import Path

from counter.documents.html_page import html_of
from counter.documents.layout import Layout
from counter.documents.write_file import write_whole
from counter.values.errors import InputError


def file_of(path: Path, paper: Layout) -> str | bytes:
    """The contents of the file; raises InputError for an ending that says neither.

    A letter that the PDF's font has not is refused with its name, for a page prints it.
    """
    ending = path.suffix.lower()
    if ending in (".html", ".htm"):
        return html_of(paper)
    if ending != ".pdf":
        raise InputError(f"{path.name}: end the name in .pdf or, for a page to print, in .html.")
    from counter.documents.pdf_file import not_printable, pdf_of  # read only when one is made

    if odd := not_printable(paper):
        raise InputError(
            f"The PDF has no letters for {odd}; end the name in .html and print that page."
        )
    return pdf_of(paper)


def write_layout(path: Path, paper: Layout) -> None:
    """Write a paper whole to a file that is not there yet. Raises UserError."""
    write_whole(path, file_of(path, paper))
