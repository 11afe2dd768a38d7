"""A file carried along in a form, so that it is chosen once however often she is asked about it.

Nothing of it is kept on the server between two pages.
"""

from __future__ import annotations

import zlib
from base64 import urlsafe_b64decode, urlsafe_b64encode

from pennate.errors import InputError
from pennate.files.csv_text import MAX_BYTES


def packed(content: bytes) -> str:
    """The file as text that a form carries unchanged."""
    return urlsafe_b64encode(zlib.compress(content)).decode("ascii")


def unpacked(text: str) -> bytes:
    """The file again; raises InputError where it did not come back whole."""
    reader = zlib.decompressobj()
    try:
        content = reader.decompress(urlsafe_b64decode(text.encode("ascii")), MAX_BYTES + 1)
    except (ValueError, zlib.error):
        raise _broken() from None
    if not reader.eof:
        raise _broken()
    return content


def _broken() -> InputError:
    return InputError("the log did not come back whole", remedy="choose the file once more")
