#!/bin/sh
# The first start copies the primary; every later one goes on from where it was.
set -eu
if [ ! -s "$PGDATA/PG_VERSION" ]; then
  mkdir -p "$PGDATA"
  chmod 0700 "$PGDATA"
  PGPASSWORD="$REPLICA_PASSWORD" pg_basebackup --pgdata="$PGDATA" --write-recovery-conf --wal-method=stream \
    --checkpoint=fast --slot=replica --dbname="host=postgres user=fitting_replica application_name=replica"
  printf "primary_conninfo = 'host=postgres user=fitting_replica password=%s application_name=replica'\n" \
    "$REPLICA_PASSWORD" >>"$PGDATA/postgresql.auto.conf"
fi
exec postgres -c hot_standby=on
