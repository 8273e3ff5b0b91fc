"""Every Python snippet of the README runs, in order; its Rust snippet is a doctest."""

from __future__ import annotations

import re
import warnings
from pathlib import Path

import mistcoat as mc

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")


def test_python_snippets_run() -> None:
    snippets = re.findall(r"```python\n(.*?)```", README, flags=re.DOTALL)
    assert len(snippets) >= 8
    session: dict[str, object] = {}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", mc.MistcoatWarning)
        for snippet in snippets:
            exec(compile(snippet, "README.md", "exec"), session)


def test_both_commands_exist() -> None:
    makefile = (Path(__file__).parents[2] / "Makefile").read_text(encoding="utf-8")
    for target in ("demo", "test"):
        assert f"make {target}" in README
        assert re.search(rf"^{target}:", makefile, flags=re.MULTILINE)
