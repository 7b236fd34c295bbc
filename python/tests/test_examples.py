"""The examples in docstrings of native functions, which doctest does not find by itself."""

from __future__ import annotations

import doctest
import inspect

import pytest

import halimeda as hm


def documented():
    for name in hm.__all__:
        thing = getattr(hm, name)
        yield name, thing
        if inspect.isclass(thing):
            for member, value in vars(thing).items():
                yield f"{name}.{member}", value


EXAMPLES = {
    name: thing.__doc__
    for name, thing in documented()
    if isinstance(getattr(thing, "__doc__", None), str) and ">>>" in thing.__doc__
}


@pytest.mark.parametrize("name", EXAMPLES)
def test_example(name):
    example = doctest.DocTestParser().get_doctest(EXAMPLES[name], {}, name, None, 0)
    told: list[str] = []
    failed, tried = doctest.DocTestRunner().run(example, out=told.append)
    assert tried and not failed, "".join(told)
