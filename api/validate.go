package api

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"mime"
	"slices"
	"strings"
	"unicode/utf8"

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
		if err := readBody(c, body.Value); err != nil {
			refuse(c, err)
			return
		}
		options.ExcludeRequestBody = isText(body.Value)
	}
	if complaints := unreadable(c); complaints != nil {
		refuse(c, &failure{kind: kindMalformed, complaints: complaints})
		return
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

// unreadable complains about parameters that are no text: the contract says nothing
// of them, and Postgres takes none.
func unreadable(c *gin.Context) (list []Complaint) {
	look := func(name, value string) {
		if !utf8.ValidString(value) || strings.ContainsRune(value, 0) {
			list = append(list, Complaint{Pointer: name, Message: "is no text in UTF-8"})
		}
	}
	for _, p := range c.Params {
		look(p.Key, p.Value)
	}
	for name, values := range c.Request.URL.Query() {
		for _, v := range values {
			look(name, v)
		}
	}
	return list
}

// jsonType is the type of every body but of tables.
const jsonType = "application/json"

// isText tells whether a body has a reader of its own, as bundles and sequences
// have: the handler gets it as it was sent, and complains of all that is wrong
// in it.
func isText(body *openapi3.RequestBody) bool {
	content := body.Content.Get(jsonType)
	if content == nil {
		return true
	}
	return content.Schema.Value.Extensions["x-go-type"] == "json.RawMessage"
}

// readBody reads the whole body, within the operation's limit. What is sent as
// JSON must be one value with nothing after it.
func readBody(c *gin.Context, body *openapi3.RequestBody) error {
	sent, parameters, err := mime.ParseMediaType(c.GetHeader("Content-Type"))
	if charset := parameters["charset"]; err != nil || body.Content[sent] == nil || charset != "" && !strings.EqualFold(charset, "utf-8") {
		return fail(kindContentType, strings.Join(slices.Sorted(maps.Keys(body.Content)), " or ")+" in UTF-8 is read here")
	}
	text, err := io.ReadAll(c.Request.Body)
	if err != nil {
		return fmt.Errorf("reading the body: %w", err)
	}
	if sent == jsonType && !json.Valid(text) {
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
