#!/bin/sh
# Finds the vehicle by the identification number of the van in the yard.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The van by its VIN' 200 GET '/v1/vehicles?vin=S0VHL2AA9N1000123'
