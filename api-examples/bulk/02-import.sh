#!/bin/sh
# Imports the file, all or nothing; sent again under the same id it answers the same, and imports nothing twice.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'An import' 200 PUT /v1/imports/6a2f3c1e-88d4-4b0e-9a57-1c2d3e4f5a61 "$here/book.ndjson" application/x-ndjson
