#!/bin/sh
# Looks for the reverse wire in every vehicle of the book.
set -eu
. "$(dirname -- "$0")/../call.sh"

call 'The reverse wire of every vehicle' 200 GET '/v1/circuits?function=control.reverse'
