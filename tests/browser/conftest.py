"""One invented shop behind the real server for all tests of pages; a test that changes it opens one of its own."""

from collections.abc import Iterator

import pytest

from tests.browser.house import House, open_house


@pytest.fixture(scope="session")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    with open_house(tmp_path_factory.mktemp("house")) as opened:
        yield opened
