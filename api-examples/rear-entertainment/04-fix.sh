#!/bin/sh
# The first draft again, and the changes that make it ready: an isolator, and the parking brake's own circuit.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The first draft, mended by the service' 200 POST '/v1/checks?fix=true' "$here/check-1-first-draft.json"
