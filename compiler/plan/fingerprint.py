"""Fingerprints: a short text that changes whenever what is printed could change."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping

_NOT_COUNTED = frozenset({"fingerprint", "tool_version"})


def canonical(value: object) -> str:
    """Canonical JSON: sorted keys, no spaces, not escaped beyond what JSON asks."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def fingerprint(plan: Mapping[str, object]) -> str:
    """SHA-256 (64 hex digits) of the plan without places, tool version and fingerprint.

    A place is every `place` key at any depth: a comment added above a line moves the
    line, and must not void a sheet.
    """
    counted = {key: value for key, value in plan.items() if key not in _NOT_COUNTED}
    digest = hashlib.sha256()
    digest.update(b"{")
    for index, key in enumerate(sorted(key for key in counted if key != "place")):
        prefix = "," if index else ""
        digest.update(_utf8(f"{prefix}{canonical(key)}:{_without_places(counted[key])}"))
    digest.update(b"}")
    return digest.hexdigest()


def sheet_fingerprint(sheet_data: object) -> str:
    """SHA-256 (64 hex digits) of what one sheet prints; give it the data, not the layout."""
    return hashlib.sha256(_utf8(canonical(sheet_data))).hexdigest()


def short(digest: str) -> str:
    """The first eight hex digits in two groups, for people: `3f9a 07c1`."""
    return f"{digest[:4]} {digest[4:8]}"


def _without_places(value: object) -> str:
    text = canonical(value)
    if '"place":' not in text:  # most of a plan: spares a copy of it
        return text
    return canonical(_stripped(value))


def _stripped(value: object) -> object:
    if isinstance(value, dict):
        return {key: _stripped(item) for key, item in value.items() if key != "place"}
    if isinstance(value, list):
        return [_stripped(item) for item in value]
    return value


def _utf8(text: str) -> bytes:
    return text.encode("utf-8", errors="surrogatepass")
