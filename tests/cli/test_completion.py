"""Shell completion: the scripts parse, and what they ask is answered."""

from __future__ import annotations

import subprocess
from collections.abc import Callable

import pytest

from tests.cli.conftest import Ran


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_each_shell_has_its_script(linstock: Callable[..., Ran], shell: str) -> None:
    ran = linstock("completion", shell)
    assert (ran.code, ran.err) == (0, "")
    assert f"_LINSTOCK_COMPLETE={shell}_complete" in ran.out


def test_the_script_for_bash_is_bash(linstock: Callable[..., Ran]) -> None:
    script = linstock("completion", "bash").out
    done = subprocess.run(["bash", "--norc", "-n"], input=script.encode(), capture_output=True, timeout=10, check=False)
    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.parametrize(
    ("words", "index", "offered"),
    [
        ("linstock che", "1", "plain,check"),
        ("linstock explain firing-c", "2", "plain,firing-current"),
        ("linstock check x.show --report sar", "4", "plain,sarif"),
        ("linstock check --fail-on w", "3", "plain,warning"),
    ],
)
def test_a_word_is_completed(linstock: Callable[..., Ran], words: str, index: str, offered: str) -> None:
    ran = linstock(_LINSTOCK_COMPLETE="bash_complete", COMP_WORDS=words, COMP_CWORD=index)
    assert offered in ran.out.splitlines()


def test_help_says_how_completion_is_switched_on(linstock: Callable[..., Ran]) -> None:
    assert "completion" in linstock("--help").out
    lines = [line.strip() for line in linstock("completion", "--help").out.splitlines()]
    assert '~/.bashrc: eval "$(linstock completion bash)"' in lines
    assert "~/.config/fish/config.fish: linstock completion fish | source" in lines
