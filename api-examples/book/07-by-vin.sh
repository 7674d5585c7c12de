#!/bin/sh
# Finds the vehicle whose identification number was read through the windscreen; the number is invented.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The vehicle by its VIN' 200 GET '/v1/vehicles?vin=30CTE2R58MA000417'
