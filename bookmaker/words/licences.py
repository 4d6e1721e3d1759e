"""Licences by their SPDX identifiers, in the words by which they ask to be named."""

from __future__ import annotations

import re

_CREATIVE_COMMONS = re.compile(r"CC-(BY(?:-NC)?(?:-ND|-SA)?)-(\d\.\d)")
_PLACE = "creativecommons.org"


def licence_words(licence: str) -> str:
    """What to print for ``licence``, an SPDX identifier or the words themselves.

    Creative Commons licences ask for their name and address (section 3(a)(1)(C) of the 4.0
    licences; from memory). Identifiers as in the SPDX Licence List. Any other is printed as it is.
    """
    if licence == "CC0-1.0":
        return f"CC0 1.0 ({_PLACE}/publicdomain/zero/1.0)"
    if licence == "CC-PDDC":
        return f"Public Domain ({_PLACE}/licenses/publicdomain)"
    found = _CREATIVE_COMMONS.fullmatch(licence)
    if not found:
        return licence
    kind, version = found[1], found[2]
    return f"CC {kind} {version} ({_PLACE}/licenses/{kind.lower()}/{version})"
