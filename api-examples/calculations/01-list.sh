#!/bin/sh
# Lists the calculations, with their inputs, units and ranges.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The calculations, with their inputs, units and ranges' 200 GET /v1/calculations
