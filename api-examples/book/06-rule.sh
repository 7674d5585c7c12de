#!/bin/sh
# Gets the page of one rule.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The page of one rule' 200 GET /v1/rules/returns-tied
