"""Every key can be named, is explained, and reaches the program in any terminal."""

import importlib
import pkgutil
from collections.abc import Iterator

import pytest
from textual.binding import Binding
from textual.dom import DOMNode

import fleet.tui

SAME_IN_TERMINALS = {"ctrl+i", "ctrl+m", "ctrl+h", "ctrl+j"}


def own_bindings() -> Iterator[tuple[str, Binding]]:
    for module in pkgutil.walk_packages(fleet.tui.__path__, "fleet.tui."):
        for name, thing in vars(importlib.import_module(module.name)).items():
            own = isinstance(thing, type) and issubclass(thing, DOMNode) and thing.__module__ == module.name
            if own:
                for binding in thing.__dict__.get("BINDINGS", []):
                    assert isinstance(binding, Binding), f"{name}: {binding}"
                    yield name, binding


ALL = list(own_bindings())


def test_there_are_bindings() -> None:
    assert len(ALL) > 20


@pytest.mark.parametrize(("owner", "binding"), ALL, ids=lambda thing: getattr(thing, "id", thing))
def test_a_binding_has_an_id_and_says_what_it_does(owner: str, binding: Binding) -> None:
    assert binding.id, f"{owner}: {binding.key}"
    assert binding.tooltip, f"{owner}: {binding.key}"
    assert not SAME_IN_TERMINALS & set(binding.key.split(","))


def test_ids_are_unique_within_the_package() -> None:
    ids = [binding.id or "" for _, binding in ALL]
    assert sorted(ids) == sorted(set(ids))
