#!/bin/sh
# Installs what the end-to-end tests need beside Rust: a browser, and the tools that look into a PDF.
set -eu
command -v chromium >/dev/null 2>&1 && command -v pdfinfo >/dev/null 2>&1 && exit 0
apt-get update
DEBIAN_FRONTEND=noninteractive apt-get install --yes --no-install-recommends chromium poppler-utils
