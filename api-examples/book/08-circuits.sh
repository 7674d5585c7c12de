#!/bin/sh
# Reads the left front loudspeaker's circuits of one vehicle.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'What one vehicle has for the left front loudspeaker' 200 GET \
    '/v1/vehicles/5b0c6f0e-7a41-4d5c-9d3a-61f2c8e4a701/circuits?function=audio.speaker.front-left'
