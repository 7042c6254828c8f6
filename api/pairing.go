package api

import (
	"context"
	"encoding/base64"
	"errors"
	"net/http"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/identity"
	"halfpoint/scoring/line"
)

// pairingLasts is how long an offer is good: long enough to walk to the line.
const pairingLasts = 15 * time.Minute

// OfferPairing offers a role on the line. Code and link are in the answer and
// nowhere else.
func (s *server) OfferPairing(ctx context.Context, request OfferPairingRequestObject) (OfferPairingResponseObject, error) {
	n := db.NewPairing{Role: string(request.Body.Role), Judge: or(request.Body.Judge), By: whoOf(ctx).name(), Lasts: pairingLasts}
	if (n.Role == line.RoleJudge) != (n.Judge != uuid.Nil) && n.Role != "assistant" {
		return nil, complainOf("/judge", "is needed for a judge's device, may be there for an assistant's, and for no other")
	}
	code, link := identity.NewPairingCode(), identity.NewPairingLink()
	n.Code, n.Link = identity.HashSecret(code), identity.HashSecret(link)
	made, err := s.db.OfferPairing(ctx, request.ContestID, n)
	if errors.Is(err, db.ErrInvalid) {
		return nil, complainOf("/judge", "is no judge of the contest")
	}
	if err != nil {
		return nil, err
	}
	return OfferPairing201JSONResponse{Code: code, Link: link, Addresses: append([]string{}, s.reached...), Offer: pairingOf(&made)}, nil
}

func pairingOf(p *db.Pairing) PairingOffer {
	return PairingOffer{
		Contest: named(p.Contest.ID, p.Contest.Name), Role: DeviceRole(p.Role), Judge: namedUnlessNil(p.Judge), Expires: p.ExpiresAt,
	}
}

// ReadPairing tells what a code or a link offers.
func (s *server) ReadPairing(ctx context.Context, request ReadPairingRequestObject) (ReadPairingResponseObject, error) {
	var found db.Pairing
	err := s.pairBy(requestOf(ctx), request.Body.Code, request.Body.Link, func(secret db.Hash) (err error) {
		found, err = s.db.Pairing(ctx, secret)
		return err
	})
	return ReadPairing200JSONResponse(pairingOf(&found)), err
}

// ClaimPairing makes whoever asks a device, and answers with a session's cookie.
func (s *server) ClaimPairing(ctx context.Context, request ClaimPairingRequestObject) (ClaimPairingResponseObject, error) {
	r, secret := requestOf(ctx), identity.NewSecret()
	key, err := base64.RawURLEncoding.DecodeString(request.Body.PublicKey)
	if err != nil || !line.IsPublicKey(key) {
		return nil, complainOf("/public_key", "is no public key on P-256")
	}
	var claimed db.Claimed
	err = s.pairBy(r, request.Body.Code, request.Body.Link, func(offer db.Hash) (err error) {
		claimed, err = s.db.ClaimPairing(ctx, db.Claim{
			Secret: offer, Key: key, Session: identity.HashSecret(secret), UserAgent: clean(r.UserAgent()),
		})
		return err
	})
	if err != nil {
		return nil, err
	}
	cookie := cookieFor(r, secret, claimed.Expires)
	return ClaimPairing201JSONResponse{
		Body: PairedDevice{
			Device: claimed.Device, Contest: named(claimed.Contest.ID, claimed.Contest.Name),
			Role: DeviceRole(claimed.Role), Judge: namedUnlessNil(claimed.Judge),
		},
		Headers: ClaimPairing201ResponseHeaders{SetCookie: &cookie},
	}, nil
}

// pairBy calls f with the hash of the code or the link that was sent. What is
// not good slows the address down; nobody pairs over a connection that others
// can read.
func (s *server) pairBy(r *http.Request, code, link *string, f func(db.Hash) error) error {
	if !isPrivate(r) {
		return fail(kindInsecure, "")
	}
	var secret string
	switch {
	case link != nil:
		secret = *link
	case code != nil:
		secret = identity.ReadPairingCode(*code)
	default:
		return complainOf("", "a code or a link is needed")
	}
	settle, err := s.guards.enterPairing(r)
	if err != nil {
		return err
	}
	err = f(identity.HashSecret(secret))
	settle(err)
	return linkError(err)
}
