#!/bin/sh
# Lists the functions that a wire can have.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'What a wire can be for' 200 GET '/v1/functions'
