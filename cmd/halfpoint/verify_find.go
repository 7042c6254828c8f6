package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"regexp"
	"strings"
	"time"

	"halfpoint/scoring"
	"halfpoint/scoring/publication"
)

// noPublication is what was read and is none.
type noPublication struct{ error }

// What is fetched or read at most, and for how long: own choice, far beyond what a
// publication is. An archive holds a bundle and its results, which are larger.
const (
	maxArchive = 4 * scoring.MaxBundleBytes
	fetchTime  = time.Minute
)

// findPublication reads a publication from wherever it is.
func findPublication(ctx context.Context, stdin io.Reader, place string) (*publication.Publication, error) {
	if strings.HasPrefix(place, "http://") || strings.HasPrefix(place, "https://") {
		return fetchPublication(ctx, place)
	}
	if place == "-" {
		return readArchive(stdin)
	}
	file, err := os.Open(place)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && info.IsDir() {
		p, err := publication.ReadFolder(os.DirFS(place))
		return p, asNone(err)
	}
	return readArchive(file)
}

func readArchive(from io.Reader) (*publication.Publication, error) {
	text, err := readBounded(from, maxArchive)
	if err != nil {
		return nil, err
	}
	p, err := publication.ReadArchive(text)
	if err != nil {
		return nil, asNone(fmt.Errorf("it is no publication as it is downloaded whole, from …/api/v1/publications/ID/archive: %w", err))
	}
	return p, nil
}

func asNone(err error) error {
	if err == nil {
		return nil
	}
	return &noPublication{err}
}

func readBounded(from io.Reader, most int64) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(from, most+1))
	if err == nil && int64(len(text)) > most {
		err = &noPublication{fmt.Errorf("it is larger than %d MiB", most>>20)}
	}
	return text, err
}

// published finds the id in the address of a publication: of its page, or of
// anything of the service that is about it.
var published = regexp.MustCompile(`/publications/([0-9a-f-]{36})(/|$)`)

// fetchPublication gets a publication from a service. The address of the latest
// one of a programme or a category is followed.
func fetchPublication(ctx context.Context, address string) (*publication.Publication, error) {
	ctx, cancel := context.WithTimeout(ctx, fetchTime)
	defer cancel()
	at, err := url.Parse(address)
	if err != nil {
		return nil, asNone(err)
	}
	path := at.Path
	if strings.HasSuffix(path, "/publications/latest") {
		if path, err = latestPath(ctx, address); err != nil {
			return nil, err
		}
	}
	id := published.FindStringSubmatch(path)
	if id == nil {
		return nil, asNone(errors.New("it is not the address of a publication: …/publications/ID"))
	}
	text, err := fetch(ctx, at.Scheme+"://"+at.Host+"/api/v1/publications/"+id[1]+"/archive", maxArchive)
	if err != nil {
		return nil, err
	}
	p, err := publication.ReadArchive(text)
	return p, asNone(err)
}

func latestPath(ctx context.Context, address string) (string, error) {
	text, err := fetch(ctx, address, maxArchive)
	if err != nil {
		return "", err
	}
	var latest struct {
		About struct {
			ID string `json:"id"`
		} `json:"about"`
	}
	if err := json.Unmarshal(text, &latest); err != nil {
		return "", asNone(err)
	}
	return "/publications/" + latest.About.ID, nil
}

func fetch(ctx context.Context, address string, most int64) ([]byte, error) {
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, address, nil)
	if err != nil {
		return nil, err
	}
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		return nil, err
	}
	defer response.Body.Close()
	switch response.StatusCode {
	case http.StatusOK:
	case http.StatusNotFound:
		return nil, fmt.Errorf("%s: nothing is there, or it is not open to everyone", address)
	default:
		return nil, fmt.Errorf("%s answers %s", address, response.Status)
	}
	return readBounded(response.Body, most)
}
