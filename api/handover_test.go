package api_test

import (
	"net/http"
	"testing"

	"github.com/google/uuid"

	"halfpoint/api"
)

// TestAHandOverIsNoContact: what somebody else brings says nothing of the tablet
// that made it.
func TestAHandOverIsNoContact(t *testing.T) {
	t.Parallel()
	l := startLine(t)
	b := l.tablet("judge", l.panel[0].Judge.ID)
	b.deliver(b.grade(1, "7.5"))
	before := l.deviceOf(b.paired.Device)
	a := b.post("/api/v1/line/records", "", map[string]any{
		"device": b.paired.Device, "store": b.store, "unsent": 0, "handed_over": true, "records": []any{b.grade(2, "8.0")},
	})
	if a.status != http.StatusOK {
		t.Fatalf("%d %s", a.status, a.body)
	}
	after := l.deviceOf(b.paired.Device)
	if before.HandedOver != nil || after.HandedOver == nil {
		t.Errorf("handed over %v, then %v", before.HandedOver, after.HandedOver)
	}
	if !after.LastContact.Equal(*before.LastContact) || *after.Unsent != 2 {
		t.Errorf("it was heard of at %v with %d unsent, and that was at %v with 2", after.LastContact, *after.Unsent, before.LastContact)
	}
}

func (l *aLine) deviceOf(id uuid.UUID) (found api.Device) {
	l.t.Helper()
	var list api.DeviceList
	read(l.t, l.send(request{path: "/api/v1/contests/" + l.contest.String() + "/devices", token: token}), &list)
	for _, d := range list.Devices {
		if d.ID == id {
			found = d
		}
	}
	return found
}
