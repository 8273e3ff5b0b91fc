"""Every public name of the package says what it is, and every example in a docstring runs."""

from __future__ import annotations

import doctest
import inspect
import types
from collections.abc import Iterator

import mistcoat as mc
import pytest

SHORTEST = 20
# Known to fall short; take a name out once its docstring is written.
KNOWN: set[str] = set()
DOCUMENTED = (
    type,
    types.ModuleType,
    types.FunctionType,
    types.BuiltinFunctionType,
    types.MethodDescriptorType,
    types.GetSetDescriptorType,
    staticmethod,
    classmethod,
    property,
)


def members(owner: object) -> Iterator[tuple[str, object]]:
    """Public members as defined: those of ``__all__`` of a module, the own ones of a class."""
    names = getattr(owner, "__all__", None) or [n for n in vars(owner) if not n.startswith("_")]
    for name in names:
        member = inspect.getattr_static(owner, name)
        module = member if isinstance(member, types.ModuleType) else inspect.getmodule(member)
        ours = module is None or module.__name__.startswith("mistcoat")
        if isinstance(member, DOCUMENTED) and ours:
            yield name, member


def walk(owner: object, prefix: str = "") -> Iterator[tuple[str, object]]:
    for name, member in members(owner):
        yield prefix + name, member
        if isinstance(member, (type, types.ModuleType)):
            yield from walk(member, f"{prefix}{name}.")


NAMES = dict(walk(mc))


def test_the_walk_reaches_all_kinds_of_names() -> None:
    for name in ("Paint", "Paint.thin", "Paint.typical", "Mix.volatile", "compare", "columns"):
        assert name in NAMES
    assert any(name.startswith("columns.") for name in NAMES)
    assert any(name.startswith("errors.") for name in NAMES)


def test_every_public_name_has_a_docstring() -> None:
    short = {
        name
        for name, member in NAMES.items()
        if len((getattr(member, "__doc__", None) or "").strip()) < SHORTEST
    }
    assert short - KNOWN == set()


@pytest.mark.parametrize("name", ["DilutionLaw", "Mix", "MixDrops", "Paint", "Voc"])
def test_class_shows_an_example(name: str) -> None:
    assert ">>> " in (NAMES[name].__doc__ or "")


def examples() -> list[doctest.DocTest]:
    """Examples in docstrings; pytest collects none of a native class or function by itself."""
    parser = doctest.DocTestParser()
    found = []
    for name, member in {"mistcoat": mc, **NAMES}.items():
        text = inspect.getdoc(member) or ""
        if ">>> " in text:
            scope = dict(vars(inspect.getmodule(member) or mc))
            found.append(parser.get_doctest(text, scope, name, None, None))
    return found


# Some examples show what a warning is for: a coat too thin to level beside one too thick to stay.
@pytest.mark.filterwarnings("ignore::mistcoat.MistcoatWarning")
@pytest.mark.parametrize("example", examples(), ids=lambda e: str(e.name))
def test_example_runs(example: doctest.DocTest) -> None:
    report: list[str] = []
    doctest.DocTestRunner(verbose=False).run(example, out=report.append)
    assert not report, "".join(report)
