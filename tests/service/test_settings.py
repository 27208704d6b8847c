"""What the environment may change."""

import pytest

from service.settings import Settings, read_settings
from sitemodel.errors import InputErrors

KEY = "a-key-of-enough-characters"


def test_nothing_stated_is_loopback_without_a_key() -> None:
    assert read_settings({}) == Settings()


def test_a_key_opens_other_hosts() -> None:
    settings = read_settings({"SIPROOF_KEY": KEY, "SIPROOF_HOST": "192.0.2.1", "SIPROOF_PORT": "80"})
    assert (settings.host, settings.port, settings.needs_key) == ("192.0.2.1", 80, True)
    assert read_settings({"SIPROOF_PORT": "80"}, port="81").port == 81


@pytest.mark.parametrize(
    ("environment", "line"),
    [
        (
            {"SIPROOF_HOST": "192.0.2.1"},
            "SIPROOF_HOST: given '192.0.2.1'; allowed: a loopback address such as 127.0.0.1, "
            "or a key in SIPROOF_KEY that every request must carry",
        ),
        ({"SIPROOF_KEY": "short"}, "SIPROOF_KEY: given 5 characters; allowed: at least 16 characters, ASCII"),
        ({"SIPROOF_PORT": "http"}, "SIPROOF_PORT: given 'http'; allowed: a whole number from 0 to 65535"),
        ({"SIPROOF_PORT": "70000"}, "SIPROOF_PORT: given '70000'; allowed: a whole number from 0 to 65535"),
        (
            {"SIPROOF_PROT": "1"},
            "SIPROOF_PROT: given an unknown setting; allowed: SIPROOF_AT_ONCE, SIPROOF_HOST, SIPROOF_JOBS, "
            "SIPROOF_KEY, SIPROOF_LARGEST_BODY, SIPROOF_PORT",
        ),
    ],
)
def test_a_wrong_setting_is_one_line(environment: dict[str, str], line: str) -> None:
    with pytest.raises(InputErrors) as refused:
        read_settings(environment)
    assert [str(error) for error in refused.value.errors] == [line]
