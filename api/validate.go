package api

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"mime"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3filter"
	"github.com/gin-gonic/gin"

	"halfpoint/scoring/document"
)

var validation = &openapi3filter.Options{
	MultiError:                        true,
	KeepValidatedValue:                true,
	RejectWhenRequestBodyNotSpecified: true,
	AuthenticationFunc:                openapi3filter.NoopAuthenticationFunc, // access.go sees to it
	SchemaValidationOptions: []openapi3.SchemaValidationOption{
		openapi3.DisableSchemaErrorDetails(), // what was sent is not said again
		openapi3.WithStringFormatValidator("uuid", openapi3.NewRegexpFormatValidator(openapi3.FormatOfStringForUUIDOfRFC9562)),
	},
}

// validate lets through what the contract allows, and names everything that it
// does not.
func validate(c *gin.Context) {
	route := routeOf(c)
	if route == nil {
		return
	}
	options := *validation
	if body := route.Operation.RequestBody; body != nil {
		if err := readJSON(c); err != nil {
			refuse(c, err)
			return
		}
		options.ExcludeRequestBody = isText(body.Value)
	}
	params := make(map[string]string, len(c.Params))
	for _, p := range c.Params {
		params[p.Key] = p.Value
	}
	input := &openapi3filter.RequestValidationInput{Request: c.Request, PathParams: params, Route: route, Options: &options}
	if err := openapi3filter.ValidateRequest(c.Request.Context(), input); err != nil {
		refuse(c, &failure{kind: kindMalformed, complaints: complain(err)})
	}
}

// isText tells whether a body has a reader of its own, as bundles have: the
// contract says nothing of its fields, and the handler gets it as it was sent.
func isText(body *openapi3.RequestBody) bool {
	schema := body.Content.Get("application/json").Schema.Value
	return len(schema.Properties) == 0
}

// readJSON reads the whole body, within the operation's limit, and sees to it
// that it is one JSON value with nothing after it.
func readJSON(c *gin.Context) error {
	sent, _, err := mime.ParseMediaType(c.GetHeader("Content-Type"))
	if err != nil || sent != "application/json" {
		return fail(kindContentType, "application/json is read here")
	}
	text, err := io.ReadAll(c.Request.Body)
	if err != nil {
		return fmt.Errorf("reading the body: %w", err)
	}
	if !json.Valid(text) {
		var report document.Report
		document.Parse(text, &report)
		return &failure{kind: kindMalformed, detail: "the body is not JSON", complaints: pointed(report.Complaints())}
	}
	c.Request.Body = io.NopCloser(bytes.NewReader(text))
	return nil
}

// complain lists what is wrong by the contract.
func complain(err error) []Complaint { return complainAt("", err) }

// complainAt lists what an error says of a place: a parameter's name, or empty
// for the body, in which schemas know their places.
func complainAt(place string, err error) (list []Complaint) {
	switch err := err.(type) { //nolint:errorlint // taken apart layer by layer, each knows a part of the place
	case openapi3.MultiError:
		for _, one := range err {
			list = append(list, complainAt(place, one)...)
		}
		return list
	case *openapi3filter.RequestError:
		if err.Parameter != nil {
			place = err.Parameter.Name
		}
		if err.Err != nil {
			return complainAt(place, err.Err)
		}
		return []Complaint{{Pointer: place, Message: err.Reason}}
	case *openapi3.SchemaError:
		if place == "" {
			place = "/" + strings.Join(err.JSONPointer(), "/")
		}
		return []Complaint{{Pointer: place, Message: schemaMessage(err)}}
	}
	return []Complaint{{Pointer: place, Message: "cannot be read"}}
}

func schemaMessage(err *openapi3.SchemaError) string {
	if err.SchemaField == "format" {
		return "is not of the format " + err.Schema.Format
	}
	return err.Reason
}
