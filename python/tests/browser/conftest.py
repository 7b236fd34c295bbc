"""The report in a real browser: Chromium, driven over a pipe by its own protocol."""

from __future__ import annotations

import base64
import json
import os
import shutil
import subprocess
import tempfile
import time
import warnings
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import halimeda as hm

NAMES = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
PATIENCE_SECONDS = 60.0

LOG = """time,nitrate [mg/L NO3],phosphate [mg/L PO4],alkalinity [dKH],harvest wet [g]
2026-01-16 18:00,3,0.10,7.6,
2026-01-20 18:00,3.2,0.11,7.7,
2026-01-24 18:00,2.8,0.10,7.5,310
2026-01-28 18:00,2.6,0.09,7.6,
2026-02-02 18:00,2.4,0.08,7.6,290
"""


class Chromium:
    """One page of a headless browser with a profile of its own and no network."""

    def __init__(self, program: str, profile: str) -> None:
        to_browser, self._write = os.pipe()
        self._read, from_browser = os.pipe()
        # The protocol is spoken on the descriptors 3 and 4.
        arguments = [
            program,
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-extensions",
            "--hide-scrollbars",
            "--no-first-run",
            "--remote-debugging-pipe",
            f"--user-data-dir={profile}",
            "about:blank",
        ]
        moved = f'exec "$@" 3<&{to_browser} 4>&{from_browser}'
        self._process = subprocess.Popen(
            ["bash", "-c", moved, "bash", *arguments],
            pass_fds=(to_browser, from_browser),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        os.close(to_browser)
        os.close(from_browser)
        os.set_blocking(self._read, False)
        self._buffer = b""
        self._count = 0
        self._session: str | None = None
        self.events: list[dict[str, Any]] = []
        pages = self.call("Target.getTargets")["targetInfos"]
        page = next(target for target in pages if target["type"] == "page")
        self._session = self.call(
            "Target.attachToTarget", targetId=page["targetId"], flatten=True
        )["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.call(f"{domain}.enable")

    def call(self, method: str, /, **parameters: Any) -> dict[str, Any]:
        """Ask the browser for something and wait for the answer."""
        self._count += 1
        message: dict[str, Any] = {
            "id": self._count,
            "method": method,
            "params": parameters,
        }
        if self._session is not None:
            message["sessionId"] = self._session
        os.write(self._write, json.dumps(message).encode() + b"\0")
        while True:
            received = self._receive()
            if received.get("id") == self._count:
                assert "error" not in received, received["error"]
                return received["result"]
            self.events.append(received)

    def _receive(self) -> dict[str, Any]:
        patience = time.monotonic() + PATIENCE_SECONDS
        while b"\0" not in self._buffer:
            assert time.monotonic() < patience, "the browser does not answer"
            try:
                self._buffer += os.read(self._read, 1 << 16)
            except BlockingIOError:
                time.sleep(0.01)
        message, self._buffer = self._buffer.split(b"\0", 1)
        return json.loads(message)

    def open(self, page: Path, width: int = 1280, *, dark: bool = False) -> None:
        """Open a file in a window of some width, px."""
        self.events.clear()
        self.call(
            "Emulation.setDeviceMetricsOverride",
            width=width,
            height=900,
            deviceScaleFactor=1,
            mobile=width < 600,
        )
        scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        self.call("Emulation.setEmulatedMedia", features=[scheme])
        self.call("Page.navigate", url=page.as_uri())
        while not any(e.get("method") == "Page.loadEventFired" for e in self.events):
            self.events.append(self._receive())

    def run(self, script: str) -> Any:
        """Evaluate a script in the page."""
        result = self.call("Runtime.evaluate", expression=script, returnByValue=True)
        assert "exceptionDetails" not in result, result["exceptionDetails"]
        return result["result"].get("value")

    def screenshot(self, path: Path) -> None:
        """Write what the page shows, all of it."""
        shot = self.call("Page.captureScreenshot", captureBeyondViewport=True)
        path.write_bytes(base64.b64decode(shot["data"]))

    def pdf(self) -> bytes:
        """Print the page as its style says."""
        printed = self.call("Page.printToPDF", preferCSSPageSize=True)
        return base64.b64decode(printed["data"])

    def close(self) -> None:
        """End the browser."""
        self._session = None
        self.call("Browser.close")
        self._process.wait(timeout=PATIENCE_SECONDS)
        os.close(self._read)
        os.close(self._write)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Chromium]:
    program = next(filter(None, map(shutil.which, NAMES)), None)
    if program is None:
        message = (
            "NO CHROMIUM: the report was not opened in a browser (Debian: chromium)"
        )
        if os.environ.get("CI"):
            pytest.fail(message)
        warnings.warn(message, pytest.PytestWarning, stacklevel=1)
        pytest.skip(message)
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        browser = Chromium(program, profile)
        try:
            yield browser
        finally:
            browser.close()


@pytest.fixture(scope="session")
def page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A report with all of its sections, on an invented tank."""
    tank = hm.example_tank()
    log = hm.Log.read(LOG, tank)
    fit = tank.fit(log, members=8)
    return hm.report(
        tank,
        plan=tank.plan(days=30, members=8, search_runs=24, few_members=4),
        log=log,
        fit=fit,
        verdict=tank.verdict(log, fit, suspicions=8),
        forecast=tank.forecast(log, fit),
        upkeep=tank.upkeep(log, fit),
        path=tmp_path_factory.mktemp("report") / "report.html",
    )
