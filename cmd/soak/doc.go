// Package soak has tests only: they run the program as it is installed, several
// processes of it on one Postgres with a standby, have simulated tablets, officials
// and spectators hold contests over HTTP, and break things meanwhile.
package soak
