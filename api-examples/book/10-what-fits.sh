#!/bin/sh
# Lists the devices whose plugs mate one of the vehicle's.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'Devices that plug into the vehicle' 200 GET '/v1/devices?fits=5b0c6f0e-7a41-4d5c-9d3a-61f2c8e4a701'
