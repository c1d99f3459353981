"""No test reads what stands in the configuration folder of whoever runs it."""

from collections.abc import Iterator

import pytest


@pytest.fixture(scope="session", autouse=True)
def no_configuration(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CONFIG_HOME", str(tmp_path_factory.mktemp("configuration")))
        yield
