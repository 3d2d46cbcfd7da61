"""Runs all tests; finds a Chromium first, and installs the distribution's where it may."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

# What `tests/browser/driven.py` needs, by the package that brings it; without it those are skipped.
OTHERS = {"firefox-esr": "firefox-esr", "WebKitWebDriver": "webkit2gtk-driver", "Xvfb": "xvfb"}
NAMES = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
ROOT = Path(__file__).resolve().parent.parent


def find_chromium() -> str | None:
    """Give the path of a Chromium of this machine."""
    told = os.environ.get("CHROMIUM")
    return told or next((found for name in NAMES if (found := shutil.which(name))), None)


def install_chromium() -> None:
    """Install Debian's package, where this is such a machine and we may."""
    if shutil.which("apt-get") is None or os.geteuid() != 0:
        return
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    subprocess.run(["apt-get", "update", "-qq"], check=False, env=quiet)
    subprocess.run(
        ["apt-get", "install", "-y", "-qq", "--no-install-recommends", "chromium"],
        check=False,
        env=quiet,
        stdout=subprocess.DEVNULL,
    )


def missing_others() -> list[str]:
    """Give the packages of Firefox and WebKit that are not installed."""
    return [package for name, package in OTHERS.items() if shutil.which(name) is None]


def main() -> int:
    """Run pytest with what was found; without a browser its tests fail in CI, else are skipped."""
    chromium = find_chromium()
    if chromium is None:
        install_chromium()
        chromium = find_chromium()
    if others := missing_others():
        print(f"Firefox or WebKit is not tried, without {', '.join(others)}.", file=sys.stderr)
    if chromium is None:
        print("No Chromium found: the browser tests cannot run.", file=sys.stderr)
    environment = {**os.environ, **({"CHROMIUM": chromium} if chromium else {})}
    # Tests that look at the same kits run in one process, which builds them once.
    spread = ("-n", "auto", "--dist", "worksteal")
    command = [sys.executable, "-m", "pytest", *spread, *sys.argv[1:]]
    return subprocess.run(command, cwd=ROOT, env=environment, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
