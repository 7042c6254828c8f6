package api

import (
	"context"

	"halfpoint/db"
)

// GetMe tells who is signed in.
func (s *server) GetMe(ctx context.Context, _ GetMeRequestObject) (GetMeResponseObject, error) {
	w := whoOf(ctx)
	if w.session == nil {
		return nil, fail(kindRefused, "a token is not signed in")
	}
	return GetMe200JSONResponse(meOf(w.session)), nil
}

func meOf(session *db.Session) Me {
	me := Me{Roles: []RoleHeld{}, Expires: session.ExpiresAt, Confirmed: session.Confirmed}
	if session.Account != nil {
		me.Account = accountFor(session.Account)
	} else {
		me.Device = &session.Device
	}
	for _, r := range session.Roles {
		me.Roles = append(me.Roles, RoleHeld{
			Contest: named(r.Contest.ID, r.Contest.Name), Role: RoleHeldRole(r.Role), Pilot: given(r.Pilot), Judge: given(r.Judge),
		})
	}
	return me
}

func accountFor(a *db.Account) *Account {
	return &Account{ID: a.ID, Email: a.Email, Name: a.Name, Owner: a.Owner, SecondFactor: a.SecondFactor}
}

// ListSessions tells where the account is signed in.
func (s *server) ListSessions(ctx context.Context, _ ListSessionsRequestObject) (ListSessionsResponseObject, error) {
	account, present, err := accountOf(ctx)
	if err != nil {
		return nil, err
	}
	found, err := s.db.Sessions(ctx, account.ID)
	if err != nil {
		return nil, err
	}
	list := SessionList{Sessions: make([]Session, len(found))}
	for i, f := range found {
		list.Sessions[i] = Session{
			ID: f.ID, Created: f.CreatedAt, Seen: f.LastSeenAt, Expires: f.ExpiresAt, Browser: f.UserAgent, Present: f.ID == present.ID,
		}
	}
	return ListSessions200JSONResponse(list), nil
}

// WithdrawSession ends one of the account's sessions.
func (s *server) WithdrawSession(ctx context.Context, request WithdrawSessionRequestObject) (WithdrawSessionResponseObject, error) {
	account, _, err := accountOf(ctx)
	if err != nil {
		return nil, err
	}
	return WithdrawSession204Response{}, s.db.WithdrawSession(ctx, account.ID, request.Session)
}

// ConfirmPassword takes the password again.
func (s *server) ConfirmPassword(ctx context.Context, request ConfirmPasswordRequestObject) (ConfirmPasswordResponseObject, error) {
	account, session, err := accountOf(ctx)
	if err != nil {
		return nil, err
	}
	if err := s.provePassword(ctx, account, request.Body.Password); err != nil {
		return nil, err
	}
	return ConfirmPassword204Response{}, s.db.ConfirmSession(ctx, session.ID)
}

// ChangePassword changes the password and ends every other session.
func (s *server) ChangePassword(ctx context.Context, request ChangePasswordRequestObject) (ChangePasswordResponseObject, error) {
	account, session, err := accountOf(ctx)
	if err != nil {
		return nil, err
	}
	if err := s.provePassword(ctx, account, request.Body.Password); err != nil {
		return nil, err
	}
	hash, err := s.hashNew(ctx, request.Body.New, "/new", account.Email, account.Name)
	if err != nil {
		return nil, err
	}
	return ChangePassword204Response{}, s.db.SetPassword(ctx, account.ID, hash, session.ID)
}

// provePassword checks the password of an account that is signed in, as
// carefully as when it signed in.
func (s *server) provePassword(ctx context.Context, account *db.Account, password string) (err error) {
	try, err := s.guards.enter(requestOf(ctx), account.Email)
	if err != nil {
		return err
	}
	defer func() { try.settle(err) }()
	found, err := s.db.Credentials(ctx, account.ID)
	if err != nil {
		return err
	}
	right, err := s.isPassword(ctx, found.Password, password)
	if err != nil {
		return err
	}
	if !right {
		return complainOf("/password", "is not the password of this account")
	}
	return nil
}
