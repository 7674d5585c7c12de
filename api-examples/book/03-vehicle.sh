#!/bin/sh
# Gets one vehicle with its function map.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'One vehicle with its function map' 200 GET /v1/vehicles/5b0c6f0e-7a41-4d5c-9d3a-61f2c8e4a701
