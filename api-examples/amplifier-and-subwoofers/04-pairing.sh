#!/bin/sh
# From the bare map, the parts and the wishes: the whole hookup, coils and power wires with it.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'From the bare map, the parts and the wishes: the whole hookup, coils and power wires with it' 200 POST /v1/pairings "$here/pairing.json"
