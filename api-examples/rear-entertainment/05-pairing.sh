#!/bin/sh
# From the bare map, the parts and the wishes: the whole hookup, with why each lead goes where it goes.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'From the bare map, the parts and the wishes: the whole hookup, with why each lead goes where it goes' 200 POST /v1/pairings "$here/pairing.json"
