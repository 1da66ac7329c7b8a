"""Hypothesis does for each draw what these laws have no use for, and keeps each example until rubbish is looked for.
What is changed here isn't what it promises to keep: pyproject.toml names the version that it is tried with."""

from __future__ import annotations

import random
import sys
from contextlib import nullcontext
from types import SimpleNamespace
from typing import Any

from hypothesis import control
from hypothesis.core import threadlocal
from hypothesis.internal import entropy
from hypothesis.internal.conjecture import providers
from hypothesis.internal.conjecture.data import ConjectureData
from hypothesis.internal.conjecture.datatree import DataTree
from hypothesis.internal.conjecture.engine import ConjectureRunner
from hypothesis.internal.conjecture.providers import Constants, HypothesisProvider
from hypothesis.strategies._internal import core, strategies
from hypothesis.strategies._internal.deferred import DeferredStrategy

HypothesisProvider._local_constants = Constants()
providers._get_local_constants = lambda: HypothesisProvider._local_constants  # type: ignore
"""Hypothesis draws without numbers and words that it reads out of whatever modules are loaded: what a law is tried on
mustn't hang on which others are collected with it. Nor are a thousand modules read for them."""

_LABELS: dict[Any, int] = {}
_made_label = core.CompositeStrategy.calc_label


def _label(strategy: core.CompositeStrategy) -> int:
    """The label of a composite strategy, which hangs on nothing but its source."""
    if strategy.definition not in _LABELS:
        _LABELS[strategy.definition] = _made_label(strategy)
    return _LABELS[strategy.definition]


threadlocal._hypothesis_global_random = random.Random()
entropy.RANDOMS_TO_MANAGE.clear()
entropy.NP_RANDOM = random
_NOTHING_ELSE = nullcontext()
control.deprecate_random_in_strategy = core.deprecate_random_in_strategy = lambda *_: _NOTHING_ELSE  # type: ignore
"""Nothing draws from the generators that modules share (`test_examples_stay.py` holds it), so they needn't be begun
anew and put back for each example, and looked after at each draw, which takes longer than many an example does."""


def _is_empty(strategy: strategies.SearchStrategy[Any]) -> bool:
    """Whether nothing can be drawn from a strategy: of most kinds there always is something."""
    return type(strategy).calc_is_empty is not _never_empty and bool(_told_empty(strategy))


_never_empty, _told_empty = strategies.SearchStrategy.calc_is_empty, strategies.SearchStrategy.is_empty.fget
strategies.SearchStrategy.is_empty = property(_is_empty)  # type: ignore
strategies.SearchStrategy.validate = lambda strategy: None  # type: ignore
core.CompositeStrategy.calc_label = _label  # type: ignore
"""Most strategies are made for a single draw: looking each through first takes as long as drawing from it, which then
says as well what is wrong with it, and so does a label made anew of the same source, or asking whether it is empty."""

_by_rounds = strategies.recursive_property


def _told_of(strategy: strategies.SearchStrategy[Any], name: str, default: object) -> Any:
    """What is told of a strategy by those that it is made of, once. Only of one that may be made of itself it is told
    in rounds, by a function that holds itself."""
    if isinstance(strategy, DeferredStrategy):
        return _by_rounds(strategy, name, default)
    for known in (f"force_{name}", f"cached_{name}"):
        if hasattr(strategy, known):
            return getattr(strategy, known)
    told = getattr(strategy, f"calc_{name}")(lambda inner: _told_of(inner, name, default))
    setattr(strategy, f"cached_{name}", told)
    return told


strategies.recursive_property = _told_of

_freeze, _simulate, _run = ConjectureData.freeze, DataTree.simulate_test_function, ConjectureRunner.run


def _freeze_apart(example: ConjectureData) -> None:
    """An example that is done is held by nothing that it holds itself: with what was drawn and asked for it it goes at
    once, and isn't looked for among a million other things."""
    _freeze(example)
    _part(example)


def _simulate_apart(tree: DataTree, example: ConjectureData) -> None:
    """The same of one that is only gone through to see whether it is known."""
    try:
        _simulate(tree, example)
    finally:
        _part(example)


def _run_apart(runner: ConjectureRunner) -> None:
    """The same of all that a law was tried on."""
    try:
        _run(runner)
    finally:
        runner._test_function = None  # type: ignore


def _part(example: ConjectureData) -> None:
    example.provider._cd = example._shared_data_strategy = None  # type: ignore


ConjectureData.freeze = _freeze_apart  # type: ignore
DataTree.simulate_test_function = _simulate_apart  # type: ignore
ConjectureRunner.run = _run_apart  # type: ignore
control.inspect = SimpleNamespace(currentframe=lambda: SimpleNamespace(f_back=sys._getframe(2)))  # type: ignore
"""What is assumed in vain is told with where that stands, and without a frame that would hold itself."""
