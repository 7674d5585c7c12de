#!/bin/sh
# Tries a rule of the shop's own on its test cases, and stores nothing; without dryRun each check of the shop runs it.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'A trial run of a house rule' 200 POST '/v1/house-rules?dryRun=true' "$here/house-rule.json"
