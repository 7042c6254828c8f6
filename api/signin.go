package api

import (
	"context"
	"errors"
	"strings"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/identity"
)

// MakeFirstAccount makes the account that owns the server, and signs it in.
func (s *server) MakeFirstAccount(ctx context.Context, request MakeFirstAccountRequestObject) (MakeFirstAccountResponseObject, error) {
	account, err := s.newAccount(ctx, &request.Body.Account, "/account")
	if err != nil {
		return nil, err
	}
	made, err := s.db.MakeFirstAccount(ctx, identity.HashSecret(request.Body.Link), account)
	if err != nil {
		return nil, linkError(err)
	}
	answer, err := s.begin(ctx, made.ID)
	return MakeFirstAccount201JSONResponse{answer}, err
}

// SignIn opens a session for an e-mail address and a password.
func (s *server) SignIn(ctx context.Context, request SignInRequestObject) (SignInResponseObject, error) {
	account, err := s.prove(ctx, request.Body)
	if err != nil {
		return nil, err
	}
	answer, err := s.begin(ctx, account)
	return SignIn201JSONResponse{answer}, err
}

// SignInByLink opens a session for a link that is good once.
func (s *server) SignInByLink(ctx context.Context, request SignInByLinkRequestObject) (SignInByLinkResponseObject, error) {
	link := identity.HashSecret(request.Body.Link)
	answer, err := s.beginWith(ctx, func(n db.NewSession) (time.Time, error) {
		n.Password = false
		return s.db.OpenSessionByLink(ctx, link, n)
	})
	return SignInByLink201JSONResponse{answer}, linkError(err)
}

// SignOut ends the session that asks.
func (s *server) SignOut(ctx context.Context, _ SignOutRequestObject) (SignOutResponseObject, error) {
	w := whoOf(ctx)
	if w.session == nil {
		return nil, fail(kindRefused, "a token is not signed in")
	}
	if err := s.db.EndSession(ctx, w.session.ID); err != nil {
		return nil, err
	}
	gone := noCookie(requestOf(ctx))
	return SignOut204Response{Headers: SignOut204ResponseHeaders{SetCookie: &gone}}, nil
}

// ResetPassword chooses a new password by a link.
func (s *server) ResetPassword(ctx context.Context, request ResetPasswordRequestObject) (ResetPasswordResponseObject, error) {
	link := identity.HashSecret(request.Body.Link)
	account, err := s.db.LinkAccount(ctx, link, db.LinkPassword)
	if err != nil {
		return nil, linkError(err)
	}
	hash, err := s.hashNew(ctx, request.Body.New, "/new", account.Email, account.Name)
	if err != nil {
		return nil, err
	}
	if _, err := s.db.ResetPassword(ctx, link, hash); err != nil {
		return nil, linkError(err)
	}
	return ResetPassword204Response{}, nil
}

// linkError says of a link that is not found that it is not good.
func linkError(err error) error {
	if errors.Is(err, db.ErrNotFound) {
		return fail(kindLink, "")
	}
	return err
}

// begin opens a session of an account that has proved itself, and answers with
// its cookie.
func (s *server) begin(ctx context.Context, account uuid.UUID) (SignedInJSONResponse, error) {
	return s.beginWith(ctx, func(n db.NewSession) (time.Time, error) { return s.db.OpenSession(ctx, account, n) })
}

// beginWith opens a session that was made by open. Nobody signs in over a
// connection that others can read.
func (s *server) beginWith(ctx context.Context, open func(db.NewSession) (time.Time, error)) (SignedInJSONResponse, error) {
	r, secret := requestOf(ctx), identity.NewSecret()
	if !isPrivate(r) {
		return SignedInJSONResponse{}, fail(kindInsecure, "")
	}
	expires, err := open(db.NewSession{Hash: identity.HashSecret(secret), UserAgent: clean(r.UserAgent()), Password: true})
	if err != nil {
		return SignedInJSONResponse{}, err
	}
	w, err := s.whoHasSession(ctx, secret)
	if err != nil {
		return SignedInJSONResponse{}, err
	}
	cookie := cookieFor(r, secret, expires)
	return SignedInJSONResponse{Body: meOf(w.session), Headers: SignedInResponseHeaders{SetCookie: &cookie}}, nil
}

// clean leaves out what Postgres takes in no text.
func clean(text string) string {
	return strings.ToValidUTF8(strings.ReplaceAll(text, "\x00", ""), "")
}

// prove finds the account whose address, password and code they are. The answer
// and its time are the same for an account that there is not.
func (s *server) prove(ctx context.Context, given *SignIn) (account uuid.UUID, err error) {
	if !isPrivate(requestOf(ctx)) {
		return uuid.Nil, fail(kindInsecure, "")
	}
	email := strings.TrimSpace(given.Email)
	try, err := s.guards.enter(requestOf(ctx), email)
	if err != nil {
		return uuid.Nil, err
	}
	defer func() { try.settle(err) }()
	found, err := s.db.CredentialsByEmail(ctx, clean(email))
	if err != nil && !errors.Is(err, db.ErrNotFound) {
		return uuid.Nil, err
	}
	right, err := s.isPassword(ctx, found.Password, given.Password)
	if err != nil {
		return uuid.Nil, err
	}
	if !right || found.DisabledAt != nil {
		return uuid.Nil, fail(kindWrongSignIn, "")
	}
	if err := s.proveCode(ctx, &found, given.Code); err != nil {
		return uuid.Nil, err
	}
	return found.ID, nil
}

// proveCode asks for the code of a second factor where one is set up. A missing
// one costs no more than the try that it takes to send it.
func (s *server) proveCode(ctx context.Context, found *db.Credentials, given *Code) error {
	if !found.SecondFactor {
		return nil
	}
	if given == nil || digits(*given) == "" {
		return fail(kindCodeNeeded, "")
	}
	step, ok := identity.CheckCode(found.CodeKey, digits(*given), time.Now())
	if !ok {
		return fail(kindWrongCode, "")
	}
	err := s.db.TakeCode(ctx, found.ID, step)
	if errors.Is(err, db.ErrNotFound) {
		return fail(kindWrongCode, "it was used already; wait for the next one")
	}
	return err
}

// digits leaves out the spaces with which apps show a code.
func digits(code string) string { return strings.Join(strings.Fields(code), "") }
