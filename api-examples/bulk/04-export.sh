#!/bin/sh
# Takes out everything the firm has, one document a line, as an import takes it.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'All that the firm has' 200 GET '/v1/export?what=devices'
