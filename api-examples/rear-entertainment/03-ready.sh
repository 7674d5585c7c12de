#!/bin/sh
# The isolator before the sleeve: ready.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The isolator before the sleeve: ready' 200 POST /v1/checks "$here/check-3-ready.json"
