#!/bin/sh
# Imports the mended spreadsheet and takes it out again.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The mended spreadsheet' 201 POST '/v1/spreadsheets?maker=Vandry&model=Hauler' \
    "$here/circuits-mended.csv" text/csv
id=$(printf '%s' "$answer" | sed -n 's/^{"id":"\([^"]*\)".*/\1/p')
call 'Its circuits as a spreadsheet' 200 GET "/v1/vehicles/$id/spreadsheet"
