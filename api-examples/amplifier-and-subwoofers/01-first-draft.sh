#!/bin/sh
# The first draft: five mistakes, each with one finding.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The first draft: five mistakes, each with one finding' 200 POST /v1/checks "$here/check-1-first-draft.json"
