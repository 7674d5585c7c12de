#!/bin/sh
# Tries a spreadsheet of 25 circuits: one colour is a word, and the answer says where and which code it stands for.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'Twenty-five circuits, one with a colour in words' 400 POST /v1/spreadsheets "$here/circuits.csv" text/csv
