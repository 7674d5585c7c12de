#!/bin/sh
# Asks each question of this folder, or those that are named: 02-calculate.sh voltage-drop fuse
set -eu
. "$(dirname -- "$0")/../call.sh"

if [ $# -eq 0 ]; then
    set -- "$here"/*.json
fi
for question; do
    file=$(basename -- "$question" .json)
    name=${file%%.*}
    call "The question $file.json to $name" 200 POST "/v1/calculations/$name" "$here/$file.json"
done
