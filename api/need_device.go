package api

import (
	"context"
	"fmt"
	"time"

	"halfpoint/db"
	"halfpoint/scoring/line"
)

func init() { needSources = append(needSources, silentDevices) }

// silentAfter is how long a device may say nothing while the line is at work.
const silentAfter = 2 * time.Minute

// silentDevices finds devices with records that are not here yet, and, while
// somebody flies, those that have not been heard of.
func silentDevices(_ context.Context, _ *server, in *situation) (needs []Need, err error) {
	working := in.isFlying()
	for i := range in.Devices {
		d := &in.Devices[i]
		silent := d.LastContactAt == nil || in.Now.Sub(*d.LastContactAt) > silentAfter
		if !silent || d.WithdrawnAt != nil {
			continue
		}
		need := Need{Kind: "device", Of: deviceName(d), Link: "/contests/" + in.Contest.ID.String() + "/devices"}
		switch {
		case d.Unsent != nil && *d.Unsent > 0:
			need.Urgency, need.Text = Soon, unsentWords(d)
		case working:
			need.Urgency, need.Text = Now, "has not been heard of for a while, and somebody flies"
		default:
			continue
		}
		needs = append(needs, need)
	}
	return needs, nil
}

// unsentWords say what is known of a silent device that had records.
func unsentWords(d *db.Device) string {
	text := fmt.Sprintf("had %d records that were not here, and is silent since %s", *d.Unsent, clock(d.LastContactAt))
	if d.HandedOverAt != nil && d.HandedOverAt.After(*d.LastContactAt) {
		text += "; records of it were handed over at " + clock(d.HandedOverAt)
	}
	return text
}

func clock(t *time.Time) string { return t.UTC().Format("15:04 UTC") }

func deviceName(d *db.Device) string {
	if d.Judge != nil {
		return fmt.Sprintf("tablet of the %s, seat of %s", d.Role, d.Judge.Name)
	}
	return "tablet of the " + d.Role
}

// isFlying tells whether the line is at work.
func (in *situation) isFlying() (flying bool) {
	in.eachProgramme(func(p *programmeParts) {
		for i := range p.behind.Flights {
			switch p.behind.Flights[i].State.Status {
			case line.StatusCalled, line.StatusFlying, line.StatusLanded:
				flying = true
			}
		}
	})
	return flying
}
