#!/bin/sh
# Lists the vehicles of the book.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The vehicles of the book' 200 GET /v1/vehicles
