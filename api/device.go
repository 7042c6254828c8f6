package api

import (
	"context"

	"halfpoint/db"
)

// ListDevices lists the devices of a contest.
func (s *server) ListDevices(ctx context.Context, request ListDevicesRequestObject) (ListDevicesResponseObject, error) {
	found, err := s.db.Devices(ctx, request.ContestID)
	return ListDevices200JSONResponse{Devices: devicesOf(found)}, err
}

func devicesOf(found []db.Device) []Device {
	return each(found, deviceOf)
}

func deviceOf(d *db.Device) Device {
	return Device{
		ID: d.ID, Role: DeviceRole(d.Role), Judge: namedUnlessNil(d.Judge), Paired: d.PairedAt,
		LastContact: d.LastContactAt, Unsent: d.Unsent, HandedOver: d.HandedOverAt, Withdrawn: d.WithdrawnAt,
	}
}

// WithdrawDevice ends a device's session for good.
func (s *server) WithdrawDevice(ctx context.Context, request WithdrawDeviceRequestObject) (WithdrawDeviceResponseObject, error) {
	err := s.db.WithdrawDevice(ctx, request.ContestID, request.Device, whoOf(ctx).name())
	return WithdrawDevice204Response{}, err
}
