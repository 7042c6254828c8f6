package api

import (
	"context"
	"errors"
	"time"

	"halfpoint/db"
	"halfpoint/identity"
)

// invitationLasts is how long a link to a role is good: it is sent some time
// before a contest, and read some time later.
const invitationLasts = 14 * 24 * time.Hour

// Invite makes a link to a role in the contest. The link is in the answer and
// nowhere else.
func (s *server) Invite(ctx context.Context, request InviteRequestObject) (InviteResponseObject, error) {
	secret := identity.NewSecret()
	n := db.NewInvitation{
		Hash: identity.HashSecret(secret), Role: string(request.Body.Role), By: whoOf(ctx).name(), Lasts: invitationLasts,
		Pilot: or(request.Body.Pilot), Judge: or(request.Body.Judge), Note: clean(or(request.Body.Note)),
	}
	made, err := s.db.Invite(ctx, request.ContestID, n)
	if errors.Is(err, db.ErrPilot) {
		return nil, complainOf("/pilot", "a pilot's role needs a pilot of the contest, and no other role has one")
	}
	if errors.Is(err, db.ErrJudge) {
		return nil, complainOf("/judge", "a judge's role needs a judge of the contest, and no other role has one")
	}
	if err != nil {
		return nil, err
	}
	return Invite201JSONResponse{Invitation: invitationOf(&made), Link: secret}, nil
}

func invitationOf(i *db.Invitation) Invitation {
	return Invitation{
		ID: i.ID, Role: Role(i.Role), Pilot: namedUnlessNil(i.Pilot), Judge: namedUnlessNil(i.Judge),
		Note: i.Note, Made: i.MadeAt, Expires: i.ExpiresAt, Accepted: i.Accepted,
	}
}

func namedUnlessNil(n *db.Named) *Named {
	if n == nil {
		return nil
	}
	return &Named{ID: n.ID, Name: n.Name}
}

// ListInvitations lists the invitations to a contest.
func (s *server) ListInvitations(ctx context.Context, request ListInvitationsRequestObject) (ListInvitationsResponseObject, error) {
	found, err := s.db.Invitations(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	return ListInvitations200JSONResponse{Invitations: each(found, invitationOf)}, nil
}

// WithdrawInvitation makes a link good no more.
func (s *server) WithdrawInvitation(ctx context.Context, request WithdrawInvitationRequestObject) (WithdrawInvitationResponseObject, error) {
	err := s.db.WithdrawInvitation(ctx, request.ContestID, request.Invitation, whoOf(ctx).name())
	return WithdrawInvitation204Response{}, err
}

// ReadOffer tells what a link offers.
func (s *server) ReadOffer(ctx context.Context, request ReadOfferRequestObject) (ReadOfferResponseObject, error) {
	offer, err := s.db.Offer(ctx, identity.HashSecret(request.Body.Link))
	if err != nil {
		return nil, linkError(err)
	}
	return ReadOffer200JSONResponse{
		Contest: named(offer.Contest.ID, offer.Contest.Name), Role: Role(offer.Role),
		Pilot: namedUnlessNil(offer.Pilot), Judge: namedUnlessNil(offer.Judge),
	}, nil
}

// AcceptInvitation gives the role to the account that is signed in, or to a new
// one, which is then signed in.
func (s *server) AcceptInvitation(ctx context.Context, request AcceptInvitationRequestObject) (AcceptInvitationResponseObject, error) {
	link := identity.HashSecret(request.Body.Link)
	accept := s.acceptSignedIn
	if request.Body.Account != nil {
		accept = func(ctx context.Context, link identity.Hash) (SignedInJSONResponse, error) {
			return s.acceptAsNew(ctx, link, request.Body.Account)
		}
	}
	answer, err := accept(ctx, link)
	switch {
	case errors.Is(err, db.ErrTaken):
		return nil, complainOf("/account/email", "has an account here; sign in with it, and open the link again")
	case errors.Is(err, db.ErrConflict):
		return nil, fail(kindConflict, "this account has the role already")
	case err != nil:
		return nil, linkError(err)
	}
	return AcceptInvitation201JSONResponse{answer}, nil
}

func (s *server) acceptSignedIn(ctx context.Context, link identity.Hash) (answer SignedInJSONResponse, err error) {
	account, _, err := accountOf(ctx)
	if err != nil {
		return answer, complainOf("/account", "is needed where nobody is signed in")
	}
	if err := s.db.Accept(ctx, link, account.ID); err != nil {
		return answer, err
	}
	w, err := s.whoHasSession(ctx, cookieOf(requestOf(ctx)))
	if err == nil && w.session == nil {
		err = w.refused() // it ended this very moment
	}
	if err == nil {
		answer.Body = meOf(w.session)
	}
	return answer, err
}

func (s *server) acceptAsNew(ctx context.Context, link identity.Hash, fields *AccountFields) (answer SignedInJSONResponse, err error) {
	if _, err := s.db.Offer(ctx, link); err != nil { // before a password is hashed for a link that is not good
		return answer, err
	}
	a, err := s.newAccount(ctx, fields, "/account")
	if err != nil {
		return answer, err
	}
	made, err := s.db.AcceptAsNew(ctx, link, a)
	if err != nil {
		return answer, err
	}
	return s.begin(ctx, made.ID)
}

// ListMembers tells who has which role in the contest.
func (s *server) ListMembers(ctx context.Context, request ListMembersRequestObject) (ListMembersResponseObject, error) {
	found, err := s.db.Members(ctx, request.ContestID)
	if err != nil {
		return nil, err
	}
	return ListMembers200JSONResponse{Members: each(found, memberOf)}, nil
}

func memberOf(m *db.Member) Member {
	return Member{
		Account: m.Account, Name: m.Name, Email: m.Email, Role: Role(m.Role),
		Pilot: namedUnlessNil(m.Pilot), Judge: namedUnlessNil(m.Judge), Given: m.GivenAt,
	}
}

// RemoveMember takes a role in the contest from an account.
func (s *server) RemoveMember(ctx context.Context, request RemoveMemberRequestObject) (RemoveMemberResponseObject, error) {
	err := s.db.TakeRole(ctx, request.ContestID, request.Account, string(request.Role), whoOf(ctx).name())
	return RemoveMember204Response{}, err
}
