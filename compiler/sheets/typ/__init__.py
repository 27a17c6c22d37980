"""The press: one template and its data in, the bytes of one PDF out."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from compiler.sheets import fonts

FOLDER = Path(__file__).parent
STANDARD = "ua-1"  # PDF/UA-1 (ISO 14289-1): tagged, titled, every drawing with words beside it


def press(template: str, data: Mapping[str, object]) -> bytes:
    """Typeset `template` (a file name in this folder) with `data`, which it reads as a JSON file.

    The data never becomes markup. System fonts and the clock are left out, so the same
    data give the same bytes. Every document gets a compiler of its own: a shared one keeps
    all pages it ever made in memory.
    """
    import typst  # late: a check prints nothing

    files: dict[str, bytes] = {
        "main": _source(template),
        "common.typ": _source("common.typ"),
        "data.json": json.dumps(data, ensure_ascii=False, sort_keys=True).encode("utf-8"),
    }
    compiler = typst.Compiler(
        input=files, font_paths=[str(fonts.FOLDER)], ignore_system_fonts=True
    )
    return bytes(compiler.compile(format="pdf", pdf_standards=[STANDARD]))


@cache
def _source(name: str) -> bytes:
    return (FOLDER / name).read_bytes()
