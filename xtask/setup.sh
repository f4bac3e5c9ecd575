#!/usr/bin/env bash
# Installs what the tests need beside the Rust toolchain: Chromium and the poppler tools (they look at the report as a
# person would), axe-core (it looks for what a keyboard or a screen reader would miss), numpy, scipy and sympy (they calculate
# modes a second time), and cargo-nextest (it runs the tests). Whatever is there already is left alone.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

packages=()
command -v npm >/dev/null || packages+=(npm)
command -v chromium >/dev/null || packages+=(chromium)
command -v pdftoppm >/dev/null && command -v pdftotext >/dev/null && command -v pdfinfo >/dev/null || packages+=(poppler-utils)

calculates() { "$1" -c "import numpy, scipy, sympy, mpmath, tomllib" >/dev/null 2>&1; }
calculates python3 || calculates /usr/bin/python3 || packages+=(python3 python3-numpy python3-scipy python3-sympy)

if [ "${#packages[@]}" -gt 0 ]; then
    if ! command -v apt-get >/dev/null; then
        echo "please install: ${packages[*]} (this machine has no apt-get)" >&2
        exit 4
    fi
    as_root=()
    [ "$(id -u)" -eq 0 ] || as_root=(sudo)
    "${as_root[@]}" apt-get update --quiet
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
        apt-get install --quiet --yes --no-install-recommends "${packages[@]}"
fi

axe=4.14.1
if [ ! -f "target/tools/axe-core-$axe/axe.min.js" ]; then
    mkdir -p "target/tools/axe-core-$axe"
    npm pack --silent --pack-destination target/tools "axe-core@$axe" >/dev/null
    tar -xzf "target/tools/axe-core-$axe.tgz" -C "target/tools/axe-core-$axe" --strip-components=1
fi

cargo nextest --version >/dev/null 2>&1 || cargo install --locked cargo-nextest
