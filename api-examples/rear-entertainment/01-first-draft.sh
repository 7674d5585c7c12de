#!/bin/sh
# The first draft: two driven returns meet in one sleeve, and the parking-brake input is grounded.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The first draft: two driven returns meet in one sleeve, and the parking-brake input is grounded' 200 POST /v1/checks "$here/check-1-first-draft.json"
