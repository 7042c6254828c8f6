#!/bin/sh
# Run by the image of Postgres when it makes its data: lets the standby copy them.
echo "host replication all all scram-sha-256" >>"$PGDATA/pg_hba.conf"
