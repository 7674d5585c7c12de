#!/bin/sh
# Gets one device of the catalogue.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'One device of the catalogue' 200 GET /v1/devices/IFC-T7
