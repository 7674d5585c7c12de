#!/bin/sh
# The corrected hookup: ready.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The corrected hookup: ready' 200 POST /v1/checks "$here/check-2-ready.json"
