#!/usr/bin/env bash
# Run once by the database container, on an empty volume: one role owns the tables and migrates them, the other runs
# the application and owns nothing.
set -euo pipefail
psql -v ON_ERROR_STOP=1 \
     -v owner_password="$SPLICEBOOK_OWNER_PASSWORD" \
     -v application_password="$SPLICEBOOK_APPLICATION_PASSWORD" \
     --username "$POSTGRES_USER" --dbname postgres <<'SQL'
create role splicebook_owner login password :'owner_password';
create role splicebook_app login password :'application_password';
create database splicebook owner splicebook_owner;
revoke all on database splicebook from public;
grant connect on database splicebook to splicebook_app;
SQL
