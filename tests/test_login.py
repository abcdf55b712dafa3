"""The login of the owner's servers: the token opens them, and nobody sets a password with it."""

import pytest
from opened import opened


@pytest.mark.parametrize("how", [(), pytest.param(("--lab",), marks=pytest.mark.slow)], ids=["pages", "lab"])
def test_nobody_sets_a_password(how, tmp_path):
    with opened(tmp_path, *how) as course:
        status, form = course.ask("/login")
        assert status == 200 and 'name="password"' in form and "new_password" not in form
        xsrf = next(one.value for one in course.jar if one.name == "_xsrf")
        course.ask("/login", password=course.token, new_password="open sesame", _xsrf=xsrf)
        course.jar.clear()
        course.ask("/login")
        xsrf = next(one.value for one in course.jar if one.name == "_xsrf")
        assert course.ask("/login", password="open sesame", _xsrf=xsrf)[0] == 401
    assert not list(tmp_path.rglob("jupyter_server_config.json"))
