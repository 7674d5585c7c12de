#!/bin/sh
# Imports the mended spreadsheet: a new vehicle of the book, with what its identification numbers begin with.
set -eu
. "$(dirname -- "$0")/../call.sh"

van='maker=Vandry&model=Hauler&modelYearFrom=2021&modelYearTo=2024&equipment=navigation&vinPattern=S0VHL2'
call 'The same with the code in place of the word' 201 POST "/v1/spreadsheets?$van" \
    "$here/circuits-mended.csv" text/csv
