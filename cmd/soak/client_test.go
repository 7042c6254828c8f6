package soak

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"sync/atomic"
	"time"
)

// A client asks one address from an address of its own, again and again until it
// is answered.
type client struct {
	url     string
	http    *http.Client
	away    *atomic.Int64 // how often there was no answer, or that it cannot be had now
	session string        // a cookie; empty for none
}

// people counts clients: each has an address of this machine's own, so that the
// bound on each address stays out of it.
var people atomic.Int64

func newClient(address string, away *atomic.Int64) *client {
	n := people.Add(1)
	dialer := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.IPv4(127, 2, byte(n>>8), byte(n))}}
	return &client{url: "http://" + address, away: away, http: &http.Client{
		Timeout: 15 * time.Second, Transport: &http.Transport{DialContext: dialer.DialContext, MaxIdleConnsPerHost: 2},
	}}
}

// An unfitError is an answer that the service may not give, whatever goes wrong.
type unfitError struct{ text string }

func (e *unfitError) Error() string { return e.text }

// once asks once. It fails where there is no answer.
func (c *client) once(ctx context.Context, method, path string, body []byte) (status int, header http.Header, text []byte, err error) {
	request, err := http.NewRequestWithContext(ctx, method, c.url+path, bytes.NewReader(body))
	if err != nil {
		return 0, nil, nil, err
	}
	if body != nil {
		request.Header.Set("Content-Type", "application/json")
	}
	if c.session != "" {
		request.Header.Set("Cookie", c.session)
		request.Header.Set("Origin", c.url)
	} else {
		request.Header.Set("Authorization", "Bearer "+token)
	}
	response, err := c.http.Do(request)
	if err != nil {
		return 0, nil, nil, err
	}
	defer response.Body.Close()
	text, err = io.ReadAll(response.Body)
	return response.StatusCode, response.Header, text, err
}

// again is how long a client waits before it asks again.
const again = 50 * time.Millisecond

// ask asks until it is answered, and reads the answer into what it is given. It
// fails where the answer is a refusal, and where a service that cannot answer now
// does not say so as it should.
func (c *client) ask(ctx context.Context, method, path string, sent, into any) (http.Header, error) {
	var body []byte
	if sent != nil {
		var err error
		if body, err = json.Marshal(sent); err != nil {
			return nil, err
		}
	}
	for wait := time.NewTicker(again); ; {
		status, header, text, err := c.once(ctx, method, path, body)
		switch {
		case err == nil && status < 300:
			wait.Stop()
			return header, read(text, into)
		case err == nil && status != http.StatusServiceUnavailable:
			wait.Stop()
			return header, &unfitError{fmt.Sprintf("%s %s: %d %s", method, path, status, text)}
		case err == nil && (header.Get("Retry-After") == "" || header.Get("Content-Type") != "application/problem+json"):
			wait.Stop()
			return header, &unfitError{fmt.Sprintf("%s %s: 503 with %v", method, path, header)}
		}
		c.away.Add(1)
		select {
		case <-ctx.Done():
			wait.Stop()
			return nil, ctx.Err()
		case <-wait.C:
		}
	}
}

func read(text []byte, into any) error {
	if into == nil {
		return nil
	}
	if raw, ok := into.(*[]byte); ok {
		*raw = text
		return nil
	}
	return json.Unmarshal(text, into)
}
