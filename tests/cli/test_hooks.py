"""The hook definitions name commands that exist. The file is plain enough to be read line by line."""

from __future__ import annotations

import re

from compiler.cli import main
from tests.cli.conftest import ROOT


def test_each_hook_runs_a_command_of_ours_on_show_files() -> None:
    text = (ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8")
    hooks = [
        dict(re.findall(r"^[- ] (\w+): (.+)$", block, re.MULTILINE)) for block in re.split(r"(?m)^(?=- )", text)[1:]
    ]
    assert [hook["id"] for hook in hooks] == ["linstock-check", "linstock-format"]
    for hook in hooks:
        program, command = hook["entry"].split()
        assert program == "linstock"
        assert command in main.commands
        assert hook["language"] == "python"
        assert re.search(hook["files"], "shows/harbour.show")
        assert not re.search(hook["files"], "README.md")
