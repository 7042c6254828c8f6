package api

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"time"

	"halfpoint/db"
)

// breath is how often a silent stream says that it is still there.
const breath = 15 * time.Second

// StreamEvents sends the heads of a contest as they are raised.
func (s *server) StreamEvents(ctx context.Context, request StreamEventsRequestObject) (StreamEventsResponseObject, error) {
	w := s.hub.watch(request.ContestID) // first, so that nothing is missed after the reading
	far := reachOf(ctx)
	now, err := s.see(ctx, far, request.ContestID, nil)
	if err != nil {
		s.hub.drop(w)
		return nil, err
	}
	return &stream{ctx: ctx, server: s, watcher: w, now: now, far: far}, nil
}

// A stream is the answer with server-sent events. It ends with the request,
// with the service, and when the contest may no longer be read.
type stream struct {
	ctx     context.Context
	server  *server
	watcher *watcher
	now     db.Head // when it began
	far     reach
}

// VisitStreamEventsResponse writes events until the stream ends.
func (s *stream) VisitStreamEventsResponse(w http.ResponseWriter) error {
	defer s.server.hub.drop(s.watcher)
	s.server.metrics.streams.Inc()
	defer s.server.metrics.streams.Dec()

	out := http.NewResponseController(w)
	if err := out.SetReadDeadline(time.Time{}); err != nil {
		return fmt.Errorf("a stream without an end: %w", err)
	}
	header := w.Header()
	header.Set("Content-Type", "text/event-stream")
	header.Set("Cache-Control", "no-store")
	header.Set("X-Accel-Buffering", "no")
	w.WriteHeader(http.StatusOK)
	return s.run(w, out)
}

func (s *stream) run(w http.ResponseWriter, out *http.ResponseController) error {
	sent, err := s.now, sendChange(w, out, db.Change{Head: s.now})
	breaths := time.NewTicker(breath)
	defer breaths.Stop()
	for err == nil {
		select {
		case <-s.ctx.Done():
			return nil
		case <-breaths.C:
			err = send(w, out, ": still here\n\n")
		case change, on := <-s.watcher.changes:
			if !on {
				return nil
			}
			if !newer(change.Head, sent) {
				continue
			}
			if _, refused := s.server.see(s.ctx, s.far, change.Contest, &change.Head); refused != nil {
				return nil // asked again, the service says why
			}
			sent, err = change.Head, sendChange(w, out, change)
		}
	}
	return nil // whoever read it has gone
}

// newer tells whether a head says more than the one sent last. Those of
// different epochs are not in an order.
func newer(head, sent db.Head) bool {
	return head.Epoch != sent.Epoch || head.Version > sent.Version
}

// changed is an event's data.
type changed struct {
	Head
	Changed []string `json:"changed,omitempty"`
}

func sendChange(w http.ResponseWriter, out *http.ResponseController, c db.Change) error {
	data, err := json.Marshal(changed{headOf(c.Head), c.Kinds})
	if err != nil {
		return fmt.Errorf("writing an event: %w", err)
	}
	return send(w, out, fmt.Sprintf("id: %s:%d\ndata: %s\n\n", c.Epoch, c.Version, data))
}

// send writes at once. A reader that takes nothing for a breath is let go.
func send(w http.ResponseWriter, out *http.ResponseController, text string) error {
	if err := out.SetWriteDeadline(time.Now().Add(breath)); err != nil {
		return err
	}
	if _, err := w.Write([]byte(text)); err != nil {
		return err
	}
	return out.Flush()
}
