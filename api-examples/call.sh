# Sourced by the examples: one call, its answer printed, and a failure if the HTTP status is not the expected one.

url=${SPLICEBOOK_URL:-http://localhost:8080}
key=${SPLICEBOOK_KEY:-splicebook-demo-key}
here=$(CDPATH= cd -- "$(dirname -- "$0")" && pwd)

# The revision that a change is based on, where it must be said: if_match='"3"'
if_match=

# call WHAT EXPECTED-STATUS METHOD PATH [BODY-FILE [CONTENT-TYPE]]
call() {
    printf '# %s\n# %s %s\n' "$1" "$3" "$url$4"
    set -- "$2" "$3" "$4" "${5:-}" "${6:-application/json}"
    if [ -n "$4" ]; then
        answer=$(curl -sS -X "$2" -H "Authorization: Bearer $key" -H "Content-Type: $5" \
            ${if_match:+-H "If-Match: $if_match"} --data-binary "@$4" -w '\n%{http_code}' "$url$3")
    else
        answer=$(curl -sS -X "$2" -H "Authorization: Bearer $key" -w '\n%{http_code}' "$url$3")
    fi
    status=$(printf '%s\n' "$answer" | tail -n 1)
    printf '%s\n' "$answer" | sed '$d'
    if [ "$status" != "$1" ]; then
        printf 'expected HTTP status %s and got %s\n' "$1" "$status" >&2
        exit 1
    fi
}
