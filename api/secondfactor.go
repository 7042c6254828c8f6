package api

import (
	"context"
	"errors"
	"time"

	"halfpoint/db"
	"halfpoint/identity"
)

// PrepareSecondFactor makes a key for an authenticator app.
func (s *server) PrepareSecondFactor(ctx context.Context, _ PrepareSecondFactorRequestObject) (PrepareSecondFactorResponseObject, error) {
	account, _, err := accountOf(ctx)
	if err != nil {
		return nil, err
	}
	key := identity.NewCodeKey()
	err = s.db.PrepareCode(ctx, account.ID, key)
	if errors.Is(err, db.ErrNotFound) {
		return nil, fail(kindConflict, "a second factor is set up already; remove it first")
	}
	if err != nil {
		return nil, err
	}
	return PrepareSecondFactor200JSONResponse{Key: identity.CodeKeyText(key), URI: identity.CodeURI(key, account.Email)}, nil
}

// ConfirmSecondFactor makes the second factor one that is asked for, once the
// app has shown that it has the key.
func (s *server) ConfirmSecondFactor(ctx context.Context, request ConfirmSecondFactorRequestObject) (answer ConfirmSecondFactorResponseObject, err error) {
	account, _, err := accountOf(ctx)
	if err != nil {
		return nil, err
	}
	try, err := s.guards.enter(requestOf(ctx), account.Email)
	if err != nil {
		return nil, err
	}
	defer func() { try.settle(err) }()
	found, err := s.db.Credentials(ctx, account.ID)
	if err != nil {
		return nil, err
	}
	if found.SecondFactor || found.CodeKey == nil {
		return nil, fail(kindConflict, "no second factor is being set up")
	}
	step, ok := identity.CheckCode(found.CodeKey, digits(request.Body.Code), time.Now())
	if !ok {
		return nil, complainOf("/code", "is not the code that the app shows now")
	}
	return ConfirmSecondFactor204Response{}, s.db.ConfirmCode(ctx, account.ID, step)
}

// RemoveSecondFactor forgets the second factor.
func (s *server) RemoveSecondFactor(ctx context.Context, _ RemoveSecondFactorRequestObject) (RemoveSecondFactorResponseObject, error) {
	account, _, err := accountOf(ctx)
	if err != nil {
		return nil, err
	}
	return RemoveSecondFactor204Response{}, s.db.RemoveCode(ctx, account.ID)
}
