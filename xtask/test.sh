#!/usr/bin/env bash
# All tests, from a fresh machine with Rust: installs what is missing, then runs what CI runs.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
bash xtask/setup.sh
cargo xtask ci
