"""The sheets on which words seek their place are as they were when somebody looked at them last."""

import pytest
from looked_at import SHEETS, kept, number


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_is_as_it_was_when_it_was_looked_at(name):
    assert number(name) == kept()[name], f"{name} has changed: if it is meant to, look at it and keep it anew (see tests/paper/looked_at.py)"


def test_none_is_kept_that_is_no_sheet():
    assert list(kept()) == list(SHEETS)
