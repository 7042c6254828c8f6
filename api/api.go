// Package api is the service over HTTP. openapi.yaml is its contract: the
// types and the interface of the handlers are generated from it, requests are
// validated against it, and it is served to readers and programs.
//
// One table says who may do what (access.go), one turns errors into problem
// documents (problem.go), one bounds requests (limit.go); server.go mounts it
// all. A handler parses, calls, answers, and returns an error.
package api

import _ "embed"

//go:generate go tool -modfile=../tools/go.mod oapi-codegen -config codegen.yaml -o contract.gen.go openapi.yaml

// contractText is the contract as written.
//
//go:embed openapi.yaml
var contractText []byte
