"""For pytest, in a trial: a test that goes round for ever fails (``-p tests.mutants.limit``)."""

import signal

import pytest

MOST = 30.0
"""Processor time that any one test may take [s]."""


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item):
    def late(*_):
        pytest.fail(f"over {MOST} s of processor time")

    before = signal.signal(signal.SIGVTALRM, late)
    signal.setitimer(signal.ITIMER_VIRTUAL, MOST)
    try:
        return (yield)
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)
