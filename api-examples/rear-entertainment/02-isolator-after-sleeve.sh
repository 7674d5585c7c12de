#!/bin/sh
# The isolator behind the common sleeve, where it is too late.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The isolator behind the common sleeve, where it is too late' 200 POST /v1/checks "$here/check-2-isolator-after-sleeve.json"
