package api

import (
	"context"
	"encoding/json"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/scoring/line"
)

// DeliverRecords stores what was recorded on a device. Whoever sends a record,
// it is the device's whose signature it carries: so a queue outlives the session
// under which it grew, and another device can hand it over.
func (s *server) DeliverRecords(ctx context.Context, request DeliverRecordsRequestObject) (DeliverRecordsResponseObject, error) {
	device, err := s.deviceOf(ctx, request.Body.Device)
	if err != nil {
		return nil, err
	}
	delivery, answers, places := readDelivery(request.Body, &device)
	receipt, err := s.db.StoreRecords(ctx, device.Contest, delivery)
	if err != nil {
		return nil, err
	}
	for n, a := range receipt.Answers {
		answers[places[n]] = answerTo(a.ID, a.Result, a.Faults)
	}
	for _, a := range answers {
		s.metrics.records.WithLabelValues(string(a.Result)).Inc()
	}
	return DeliverRecords200JSONResponse{Epoch: receipt.Epoch, Version: receipt.Version, Have: receipt.Have, Records: answers}, nil
}

// readDelivery reads what a device sent: what is to be stored, the answers to all
// of it, and at which places of these those to what is stored stand.
func readDelivery(sent *LineDelivery, device *db.DeviceKey) (d db.Delivery, answers []RecordAnswer, places []int) {
	d = db.Delivery{Store: sent.Store, Author: device.Author, Contact: contactOf(sent)}
	answers = make([]RecordAnswer, len(sent.Records))
	for i, body := range sent.Records {
		record, faults := readRecord(body, device)
		answers[i] = answerTo(record.ID, db.ResultRefused, faults)
		if faults == nil {
			d.Records, places = append(d.Records, db.Received{Record: record, Body: body}), append(places, i)
		}
	}
	return d, answers, places
}

func answerTo(id, result string, faults []line.Fault) RecordAnswer {
	return RecordAnswer{ID: id, Result: RecordAnswerResult(result), Faults: faultsOf(faults)}
}

func contactOf(d *LineDelivery) *db.Contact {
	return &db.Contact{Device: d.Device, Store: d.Store, Unsent: d.Unsent, HandedOver: or(d.HandedOver)}
}

// deviceOf finds a device. What it was paired for and its key never change; whether
// it is withdrawn is asked when its records are stored.
func (s *server) deviceOf(ctx context.Context, id uuid.UUID) (db.DeviceKey, error) {
	if device, ok := s.devices.Load(id); ok {
		return device.(db.DeviceKey), nil
	}
	device, err := s.db.DeviceKey(ctx, id)
	if err != nil {
		return db.DeviceKey{}, err
	}
	device.Author.Withdrawn = false
	s.devices.Store(id, device)
	return device, nil
}

// readRecord reads a record and holds its signature against the device. What
// else may be wrong with it is the database's to say.
func readRecord(body json.RawMessage, device *db.DeviceKey) (record line.Record, faults []line.Fault) {
	if err := json.Unmarshal(body, &record); err != nil {
		return record, []line.Fault{{Field: "", Text: "cannot be read: " + err.Error()}}
	}
	if !record.SignedBy(device.Key, device.Contest.String()) {
		return record, []line.Fault{{Field: "signature", Text: "is not the device's"}}
	}
	return record, nil
}

func faultsOf(faults []line.Fault) *[]RecordFault {
	if len(faults) == 0 {
		return nil
	}
	list := make([]RecordFault, len(faults))
	for i, f := range faults {
		list[i] = RecordFault{Field: f.Field, Text: f.Text}
	}
	return &list
}
