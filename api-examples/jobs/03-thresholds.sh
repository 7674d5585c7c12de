#!/bin/sh
# The figures that rules compare with, each with its reason and the range in which a shop may set its own.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The figures that rules compare with' 200 GET /v1/thresholds
