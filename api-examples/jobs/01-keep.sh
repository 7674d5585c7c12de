#!/bin/sh
# Keeps a job: its first draft, the report of it, the corrected hookup as the next revision, and what that mended.
set -eu
. "$(dirname -- "$0")/../call.sh"

drafts=$here/../amplifier-and-subwoofers
call 'The first draft, kept' 201 POST /v1/hookups "$drafts/check-1-first-draft.json"
job=$(printf '%s' "$answer" | sed -n 's/^{"id":"\([0-9a-f-]*\)".*/\1/p')
call 'Its report' 200 GET "/v1/hookups/$job/report"
if_match='"1"'
call 'The corrected hookup, unless somebody was faster' 201 POST "/v1/hookups/$job/revisions" "$drafts/check-2-ready.json"
if_match=
call 'What that mended' 200 GET "/v1/hookups/$job/revisions/2/findings-changes?from=1"
call 'The jobs that are ready' 200 GET '/v1/hookups?verdict=ready&limit=5'
