"""Reads PDF files and says what it found of their pages as one line of JSON each.

Run by tests/reference/strict_readers.rs with the files as arguments; needs pypdf.
"""

import json
import sys

from pypdf import PdfReader


def found(name):
    reader = PdfReader(name, strict=True)
    root = reader.trailer["/Root"]
    return {
        "boxes": [[float(side) for side in page.mediabox] for page in reader.pages],
        "scaling": root["/ViewerPreferences"]["/PrintScaling"],
        "title": reader.metadata.title,
        "words": [page.extract_text() for page in reader.pages],
    }


for name in sys.argv[1:]:
    print(json.dumps(found(name)))
