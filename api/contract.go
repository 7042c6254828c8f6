package api

import (
	"fmt"
	"net/http"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/routers"
	"github.com/gin-gonic/gin"
)

// A contract is openapi.yaml, read.
type contract struct {
	spec       *openapi3.T
	json       []byte                    // the same as JSON, as served
	operations map[string]*routers.Route // by method and gin's path
}

func loadContract() (*contract, error) {
	spec, err := openapi3.NewLoader().LoadFromData(contractText)
	if err != nil {
		return nil, fmt.Errorf("reading the contract: %w", err)
	}
	text, err := spec.MarshalJSON()
	if err != nil {
		return nil, fmt.Errorf("writing the contract: %w", err)
	}
	k := &contract{spec: spec, json: text, operations: map[string]*routers.Route{}}
	for path, item := range spec.Paths.Map() {
		for method, operation := range item.Operations() {
			k.operations[method+" "+ginPath(path)] = &routers.Route{
				Spec: spec, Path: path, PathItem: item, Method: method, Operation: operation,
			}
		}
	}
	return k, nil
}

// ginPath writes a path of the contract as gin does: {x} is :x.
func ginPath(path string) string {
	return strings.NewReplacer("{", ":", "}", "").Replace(path)
}

// routeKey is where the context keeps the operation that is asked for.
const routeKey = "route"

// find notes which operation of the contract is asked for; there is none for
// the pages of the browser and for what is not there. HEAD asks for what GET does.
func (k *contract) find(c *gin.Context) {
	method := c.Request.Method
	if method == http.MethodHead {
		method = http.MethodGet
	}
	if route, ok := k.operations[method+" "+c.FullPath()]; ok {
		c.Set(routeKey, route)
	}
}

func routeOf(c *gin.Context) *routers.Route {
	route, _ := c.Value(routeKey).(*routers.Route)
	return route
}

// operationOf names the operation that is asked for, for logs and metrics;
// "other" where it is none of the contract.
func operationOf(c *gin.Context) string {
	if route := routeOf(c); route != nil {
		return route.Operation.OperationID
	}
	return "other"
}
