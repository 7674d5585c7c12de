#!/bin/sh
# Lists the rules that a hookup is checked by.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The rules that a hookup is checked by' 200 GET /v1/rules
