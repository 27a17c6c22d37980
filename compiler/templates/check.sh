#!/bin/sh
# Checks the show, prints it into out/, and leaves reports for the CI service in reports/.
# Run it at home before you push: ci/check
# Exit code: 0 clean, 1 findings, 2 wrong use.
set -eu
cd "$(dirname "$0")/.."

if [ -n "${CI:-}" ]; then
    # Lines that the CI service shows beside the change. What they mean for the run is decided below.
    linstock check @SHOW@ --report annotations || true
fi
linstock build @SHOW@ --out out \
    --report text \
    --report junit=reports/findings.xml \
    --report sarif=reports/findings.sarif
