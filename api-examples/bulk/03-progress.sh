#!/bin/sh
# Asks how the import went, or, while it runs, how far it is.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'How the import went' 200 GET /v1/imports/6a2f3c1e-88d4-4b0e-9a57-1c2d3e4f5a61
