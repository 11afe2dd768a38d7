#!/bin/sh
# Find a Chromium for the browser tests, or try once to install one; never fails.
found() { command -v chromium || command -v chromium-browser || command -v google-chrome; }
if found >/dev/null 2>&1; then exit 0; fi
if command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
  (apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium) >/dev/null 2>&1
fi
if found >/dev/null 2>&1; then exit 0; fi
echo "No Chromium on this machine: the tests marked “browser” are skipped; install chromium to run them."
