#!/bin/sh
# Run once by the image, when the primary's data is made. A commit is answered once the replica has it in its log.
set -eu
psql --set=ON_ERROR_STOP=1 --username=postgres --set=password="$REPLICA_PASSWORD" <<'SQL'
CREATE ROLE fitting_replica LOGIN REPLICATION PASSWORD :'password';
SELECT pg_create_physical_replication_slot('replica');
ALTER SYSTEM SET synchronous_standby_names = 'ANY 1 (replica)';
SQL
echo 'host replication fitting_replica all scram-sha-256' >>"$PGDATA/pg_hba.conf"
