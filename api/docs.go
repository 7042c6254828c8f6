package api

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"maps"
	"net/http"
	"slices"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/gin-gonic/gin"
)

// Where the contract is served.
const (
	docsPath  = "/api/v1/docs"
	stylePath = "/api/v1/docs/style.css"
	jsonPath  = "/api/v1/openapi.json"
)

var (
	//go:embed docs/page.html
	docsPage string
	//go:embed docs/style.css
	docsStyle []byte

	docsTemplate = template.Must(template.New("docs").Parse(docsPage))
)

// What the page shows.
type (
	docs struct {
		Title, Description, Style, JSON string

		Groups   []docsGroup
		Problems []docsProblem
		Shapes   []docsShape
	}
	docsGroup struct {
		Name, Description string
		Operations        []docsOperation
	}
	docsOperation struct {
		ID, Summary, Method, Path, Description, Body string

		Parameters []docsParameter
		Answer     docsType
	}
	docsParameter struct {
		Name, Type, Description string
		Required                bool
	}
	docsProblem struct {
		Name, Title string
		Status      int
	}
	docsShape struct {
		Name, Description string
		Values            []any
		Fields            []docsField
	}
	docsField struct {
		Name, Description string
		Type              docsType
		Required          bool
	}
	// docsType is said in words, with the name of a shape after them where
	// there is one.
	docsType struct{ Text, Shape string }
)

// writeDocs makes the page of the contract.
func writeDocs(k *contract) ([]byte, error) {
	page := docs{
		Title: k.spec.Info.Title, Description: k.spec.Info.Description, Style: stylePath, JSON: jsonPath,
		Groups: groupsOf(k.spec), Shapes: shapesOf(k.spec),
	}
	for _, one := range kinds {
		page.Problems = append(page.Problems, docsProblem{one.name, one.title, one.status})
	}
	var text bytes.Buffer
	if err := docsTemplate.Execute(&text, page); err != nil {
		return nil, fmt.Errorf("writing the page of the contract: %w", err)
	}
	return text.Bytes(), nil
}

func serve(contentType string, text []byte) gin.HandlerFunc {
	return func(c *gin.Context) {
		c.Header("Cache-Control", "no-cache")
		c.Data(http.StatusOK, contentType, text)
	}
}

func groupsOf(spec *openapi3.T) []docsGroup {
	groups := make([]docsGroup, len(spec.Tags))
	for i, tag := range spec.Tags {
		groups[i] = docsGroup{Name: tag.Name, Description: tag.Description}
		for _, path := range slices.Sorted(maps.Keys(spec.Paths.Map())) {
			item := spec.Paths.Value(path)
			for _, method := range slices.Sorted(maps.Keys(item.Operations())) {
				operation := item.GetOperation(method)
				if slices.Contains(operation.Tags, tag.Name) {
					groups[i].Operations = append(groups[i].Operations, docsOf(path, method, item, operation))
				}
			}
		}
	}
	return groups
}

func docsOf(path, method string, item *openapi3.PathItem, operation *openapi3.Operation) docsOperation {
	d := docsOperation{
		ID: operation.OperationID, Summary: operation.Summary, Method: method, Path: path,
		Description: operation.Description, Answer: answerOf(operation),
	}
	for _, p := range slices.Concat(item.Parameters, operation.Parameters) {
		d.Parameters = append(d.Parameters, docsParameter{
			p.Value.Name, typeOf(p.Value.Schema).String(), p.Value.Description, p.Value.Required,
		})
	}
	if operation.RequestBody != nil {
		d.Body = operation.RequestBody.Value.Description
	}
	return d
}

// answerOf says what a success gives.
func answerOf(operation *openapi3.Operation) docsType {
	for status, response := range operation.Responses.Map() {
		if !strings.HasPrefix(status, "2") {
			continue
		}
		for mediaType, content := range response.Value.Content {
			t := typeOf(content.Schema)
			t.Text = status + ", " + mediaType + ": " + t.Text
			return t
		}
	}
	return docsType{Text: "nothing"}
}

func shapesOf(spec *openapi3.T) []docsShape {
	var shapes []docsShape
	for _, name := range slices.Sorted(maps.Keys(spec.Components.Schemas)) {
		schema := spec.Components.Schemas[name].Value
		shape := docsShape{Name: name, Description: schema.Description, Values: schema.Enum}
		for _, field := range slices.Sorted(maps.Keys(schema.Properties)) {
			ref := schema.Properties[field]
			shape.Fields = append(shape.Fields, docsField{
				Name: field, Description: ref.Value.Description, Type: typeOf(ref),
				Required: slices.Contains(schema.Required, field),
			})
		}
		shapes = append(shapes, shape)
	}
	return shapes
}

func typeOf(ref *openapi3.SchemaRef) docsType {
	if name := ref.Ref; name != "" {
		return docsType{Shape: name[strings.LastIndexByte(name, '/')+1:]}
	}
	schema := ref.Value
	switch {
	case schema.Type.Is("array"):
		t := typeOf(schema.Items)
		t.Text = strings.TrimSpace("list of " + t.Text + " ")
		return docsType{t.Text + " ", t.Shape}
	case len(schema.Enum) > 0:
		return docsType{Text: "one of " + strings.Trim(fmt.Sprint(schema.Enum), "[]")}
	case schema.Format != "" && schema.Format != "double" && schema.Format != "int64":
		return docsType{Text: schema.Format}
	}
	return docsType{Text: strings.Join(schema.Type.Slice(), " or ")}
}

func (t docsType) String() string { return strings.TrimSpace(t.Text + t.Shape) }
