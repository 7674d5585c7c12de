#!/bin/sh
# Has a file of vehicles and devices judged line by line, and stores nothing.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'A trial run of an import' 200 PUT '/v1/imports/6a2f3c1e-88d4-4b0e-9a57-1c2d3e4f5a60?dryRun=true' \
    "$here/book.ndjson" application/x-ndjson
