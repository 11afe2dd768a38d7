"""Who may ask, and what a page may do."""

from __future__ import annotations

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient

from pennate.web.guard import HEADERS, MOST_BYTES, Guard, known_host


@pytest.fixture
def client() -> TestClient:
    """A page and a form behind the guard."""
    app = FastAPI()
    app.add_middleware(Guard)

    @app.get("/page")
    def page() -> str:
        return "page"

    @app.post("/form")
    def form() -> str:
        return "saved"

    return TestClient(app, base_url="http://localhost:8321")


@pytest.mark.parametrize(
    ("host", "known"),
    [
        ("localhost:8321", True),
        ("127.0.0.1", True),
        ("192.168.1.20:8321", True),
        ("[::1]:8321", True),
        ("gymbag.local", True),
        ("example.com", False),
        ("localhost.example.com", False),
        ("", False),
    ],
)
def test_only_own_names_are_answered(host: str, known: bool) -> None:  # noqa: FBT001 # a table
    """A foreign name pointed at this server gets nothing, which stops DNS rebinding."""
    assert known_host(host) is known


def test_a_foreign_name_is_refused(client: TestClient) -> None:
    """The Host header is looked at for every request."""
    assert client.get("/page", headers={"host": "evil.example"}).status_code == 421


@pytest.mark.parametrize(
    "headers",
    [
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "http://localhost:9999"},
    ],
)
def test_forms_of_other_sites_save_nothing(client: TestClient, headers: dict[str, str]) -> None:
    """A form sent from another site is refused, as there is no token to steal or to check."""
    assert client.post("/form", headers=headers).status_code == 403


@pytest.mark.parametrize(
    "headers", [{}, {"sec-fetch-site": "same-origin"}, {"origin": "http://localhost:8321"}]
)
def test_own_forms_are_taken(client: TestClient, headers: dict[str, str]) -> None:
    """Our own pages, and programs that are no browser, may change things."""
    assert client.post("/form", headers=headers).status_code == 200


def test_huge_requests_are_refused_before_they_are_read(client: TestClient) -> None:
    """A stated length over the limit is refused at once."""
    headers = {"content-length": str(MOST_BYTES + 1)}
    assert client.post("/form", headers=headers).status_code == 413


def test_every_answer_carries_the_rules(client: TestClient) -> None:
    """No inline script, no foreign source, no frame, no sniffing; and pages are not kept."""
    headers = client.get("/page").headers
    assert {name: headers[name] for name in HEADERS} == dict(HEADERS)
    assert "unsafe" not in headers["content-security-policy"]
    assert headers["cache-control"] == "private, no-cache"
