"""Of thousands of tests that pass little need be told from one process to another."""

from __future__ import annotations

import os

import pytest
from _pytest.runner import runtestprotocol


class LessTold:
    """For a process that runs tests for another: it tells how each test went, and of getting ready and clearing up only
    what failed or was skipped. Begin and end of each is told to nobody: that is for lists of names and times."""

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_protocol(self, item: pytest.Item, nextitem: pytest.Item | None) -> bool:
        for report in runtestprotocol(item, log=False, nextitem=nextitem):
            if report.when == "call" or not report.passed:
                item.ihook.pytest_runtest_logreport(report=report)
        return True


def tell_less(config: pytest.Config) -> None:
    """Where nobody asked for more than which tests failed and how."""
    asked = config.option
    if "PYTEST_XDIST_WORKER" in os.environ and not (asked.verbose > 0 or asked.durations or asked.xmlpath
                                                    or asked.reportchars.strip("fEw")):
        config.pluginmanager.register(LessTold())
