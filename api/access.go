package api

import (
	"context"

	"github.com/gin-gonic/gin"
	"github.com/google/uuid"

	"halfpoint/db"
)

// A role is what whoever asks is: in the contest that is asked for, or
// anywhere where none is.
type role int

const (
	anyone    role = iota // whoever is not signed in
	signedIn              // an account or a device, whatever else it is
	member                // of the contest: has any role in it
	device                // paired for a role on the line
	pilot                 // an account, as a pilot of the contest
	seated                // an account, as a judge of the contest: it reads the own analysis and nothing of the line
	judge                 // a device, for a seat
	assistant             // a device, beside a judge
	chief                 // a device, the chief judge's
	announcer             // a device, the announcer's
	jury                  // an account
	office                // an account
	director              // an account
	owner                 // an account, of the whole server; and the office's token
	roles                 // how many there are
)

// builds says which role's place in a line of the table a role takes that the
// line does not name.
var builds = [roles]role{
	signedIn: anyone, member: signedIn, device: member, pilot: member, seated: signedIn, judge: device, assistant: device, chief: device,
	announcer: device, jury: member, office: member, director: office, owner: director,
}

// roleNames are the roles as the database has them.
var roleNames = map[string]role{
	"pilot": pilot, "judge": judge, "assistant": assistant, "chief": chief, "announcer": announcer,
	"jury": jury, "office": office, "director": director,
}

// accountRoles are those that mean another thing for an account than for a
// device.
var accountRoles = map[string]role{db.RoleJudge: seated}

// A reach is how far a role may go in an operation.
type reach int

const (
	unsaid     reach = iota // as far as the role that it builds on; for anyone, nowhere
	nowhere                 // refused
	opened                  // in contests that are opened at all: their facts, nothing of results
	live                    // in contests that are opened live
	ownSeat                 // inside, where the judge that is asked for is the one of the own seat
	ownFlight               // inside, where the flight that is asked for is flown by the pilot
	ownPilot                // inside, and of pilots only the own: handlers hold to it by [server.ownPilots]
	inside                  // in the own contest, however it is opened; nothing that is withheld, as a sequence is until it is released
	everywhere              // all there is wherever the role holds: a contest's in the contest, the owner's and anyone's in all
)

// Rights are a line of the table: how far each role may go in an operation.
type rights [roles]reach

// access is the one table of who may do what. A role that a line does not name
// may do what the one that it builds on may.
var access = map[string]rights{
	"listContests":        {anyone: opened},
	"getContest":          {anyone: opened, member: inside, office: everywhere},
	"getProgramme":        {anyone: opened, member: inside, office: everywhere},
	"getOrder":            {anyone: opened, judge: nowhere, assistant: nowhere, member: inside, office: everywhere},
	"putOrder":            {office: everywhere},
	"drawOrder":           {office: everywhere},
	"getProgrammeResults": {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, announcer: inside, jury: inside, office: everywhere},
	"getCategoryResults":  {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, announcer: inside, jury: inside, office: everywhere},
	"getProgrammeChanges": {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, announcer: inside, jury: inside, office: everywhere},
	"getCategoryChanges":  {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, announcer: inside, jury: inside, office: everywhere},
	"getFlightWorking":    {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, jury: inside, office: everywhere},
	"getPilot":            {anyone: opened, judge: nowhere, assistant: nowhere, member: inside, office: everywhere},
	"getFlightResult":     {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, jury: inside, office: everywhere},
	"getJudgeSheet":       {anyone: live, judge: ownSeat, assistant: nowhere, chief: inside, jury: inside, office: everywhere},
	"listPaper":           {office: everywhere},
	"getPaper":            {office: everywhere},
	"keyPaper":            {office: everywhere},
	"forgetPaper":         {office: everywhere},
	"streamEvents":        {anyone: live, member: inside, office: everywhere},
	"createContest":       {owner: everywhere},
	"importBundle":        {owner: everywhere},
	"copyContest":         {owner: everywhere},
	"exportBundle":        {office: everywhere},
	"getSetup":            {office: everywhere},
	"changeSetup":         {office: everywhere},
	"getPilotTable":       {office: everywhere},
	"readPilotTable":      {office: everywhere},
	"getOfficialTable":    {office: everywhere},
	"readOfficialTable":   {office: everywhere},

	"checkSequence":            {anyone: opened, member: inside, office: everywhere},
	"getLimits":                {anyone: opened, member: inside, office: everywhere},
	"putLimits":                {office: everywhere},
	"getNumbers":               {office: everywhere},
	"putNumbers":               {office: everywhere},
	"getProgrammeSequence":     {anyone: opened, member: inside, office: everywhere},
	"putProgrammeSequence":     {office: everywhere},
	"signOffProgrammeSequence": {office: everywhere},
	"releaseProgrammeSequence": {office: everywhere},
	"listSequences":            {office: everywhere},
	"getFlightSequence":        {anyone: opened, member: inside, office: everywhere},
	"putFlightSequence":        {pilot: ownFlight, office: everywhere},
	"signOffFlightSequence":    {office: everywhere},

	"listContestPublications":       {anyone: opened, member: inside, office: everywhere},
	"listProgrammePublications":     {anyone: opened, member: inside, office: everywhere},
	"listCategoryPublications":      {anyone: opened, member: inside, office: everywhere},
	"getLatestProgrammePublication": {anyone: opened, member: inside, office: everywhere},
	"getLatestCategoryPublication":  {anyone: opened, member: inside, office: everywhere},
	"getPublication":                {anyone: opened, member: inside, office: everywhere},
	"getPublicationBundle":          {anyone: opened, member: inside, office: everywhere},
	"getPublicationResults":         {anyone: opened, member: inside, office: everywhere},
	"getPublicationArchive":         {anyone: opened, member: inside, office: everywhere},
	"getPublicationSheets":          {anyone: opened, member: inside, office: everywhere},
	"getPublicationWorking":         {anyone: opened, member: inside, office: everywhere},
	"getPublicationChanges":         {anyone: opened, member: inside, office: everywhere},
	"listKeys":                      {anyone: everywhere},
	"publishProgramme":              {director: everywhere},
	"publishCategory":               {director: everywhere},
	"setCounting":                   {director: everywhere},
	"listAnalyses":                  {anyone: opened, seated: inside, judge: inside, chief: inside, jury: everywhere, office: everywhere},
	"getPanelAnalysis":              {anyone: opened, chief: inside, jury: everywhere, office: everywhere},
	"getJudgeAnalysis":              {seated: ownSeat, judge: ownSeat, jury: everywhere, office: everywhere},
	"publishAnalysis":               {director: everywhere},
	"previewProgrammePublication":   {office: everywhere},
	"previewCategoryPublication":    {office: everywhere},
	"listNeeds":                     {office: everywhere},
	"auditContest":                  {office: everywhere},
	"listProtests":                  {pilot: ownPilot, jury: inside, office: everywhere},
	"fileProtest":                   {pilot: ownPilot, office: everywhere},
	"decideProtest":                 {director: everywhere},
	"offerPairing":                  {office: everywhere},
	"readPairing":                   {anyone: everywhere},
	"claimPairing":                  {anyone: everywhere},
	"listDevices":                   {office: everywhere},
	"withdrawDevice":                {office: everywhere},
	"getLinePlan":                   {device: inside},
	"getLineItems":                  {device: inside},
	"getAnnouncement":               {announcer: inside, office: everywhere},
	"deliverRecords":                {anyone: everywhere}, // each record proves whose it is

	// A season's contests are not in its path: handlers hold to these in each of them.
	"listSeasons":         {anyone: opened, office: everywhere},
	"makeSeason":          {director: everywhere},
	"getSeason":           {anyone: opened, member: inside, office: everywhere},
	"changeSeason":        {director: everywhere},
	"getSeasonPeople":     {office: everywhere},
	"confirmSeasonPeople": {office: everywhere},

	"makeFirstAccount":    {anyone: everywhere},
	"signIn":              {anyone: everywhere},
	"signInByLink":        {anyone: everywhere},
	"resetPassword":       {anyone: everywhere},
	"readOffer":           {anyone: everywhere},
	"acceptInvitation":    {anyone: everywhere},
	"signOut":             {signedIn: everywhere},
	"getMe":               {signedIn: everywhere},
	"listSessions":        {signedIn: everywhere, device: nowhere},
	"withdrawSession":     {signedIn: everywhere, device: nowhere},
	"confirmPassword":     {signedIn: everywhere, device: nowhere},
	"changePassword":      {signedIn: everywhere, device: nowhere},
	"prepareSecondFactor": {signedIn: everywhere, device: nowhere},
	"confirmSecondFactor": {signedIn: everywhere, device: nowhere},
	"removeSecondFactor":  {signedIn: everywhere, device: nowhere},
	"listInvitations":     {director: everywhere},
	"invite":              {director: everywhere},
	"withdrawInvitation":  {director: everywhere},
	"listMembers":         {director: everywhere},
	"removeMember":        {director: everywhere},

	"getHealth":    {anyone: everywhere},
	"getReadiness": {anyone: everywhere},
}

// sessionless are the operations for which nobody's session is looked at: a grade is
// proved by its record alone, and should wait for nothing else.
var sessionless = map[string]bool{"deliverRecords": true}

// passwordAgain are the operations for which an account must have given its
// password within ten minutes. Where that depends on what is sent, a handler
// asks [needPassword].
var passwordAgain = map[string]bool{
	"invite":              true,
	"publishAnalysis":     true,
	"removeMember":        true,
	"prepareSecondFactor": true,
	"removeSecondFactor":  true,
}

// Where the context keeps how far the request may go, and by which rights.
const (
	reachKey  = "reach"
	rightsKey = "rights"
)

// allow finds who asks and how far they may go in the operation.
func (s *server) allow(c *gin.Context) {
	w, err := s.whoAsks(c)
	if err != nil {
		refuse(c, err)
		return
	}
	route := routeOf(c)
	if route == nil {
		return
	}
	operation := route.Operation.OperationID
	far, err := s.reachIn(c, w, access[operation])
	if err == nil && passwordAgain[operation] {
		err = needPassword(c)
	}
	if err != nil {
		refuse(c, err)
		return
	}
	if w.isSigned() {
		c.Header("Cache-Control", "no-store") // unless the handler says otherwise
	}
	c.Set(reachKey, far)
	c.Set(rightsKey, access[operation])
}

// reachIn says how far whoever asks may go. Where nothing that they are may go
// anywhere they are refused, whatever they ask for. In a contest in which they
// are nothing they are as whoever is signed in, and there is nothing else there
// for them.
func (s *server) reachIn(c *gin.Context, w *who, r rights) (reach, error) {
	if !w.couldGo(r) {
		return nowhere, w.refused()
	}
	hats, stranger, err := s.hatsFor(c, w)
	if err != nil {
		return nowhere, err
	}
	far, missed := nowhere, stranger
	for _, h := range hats {
		reached := r.of(h.role)
		if reached == ownSeat || reached == ownFlight {
			missed = true
			if reached, err = s.own(c, h, reached); err != nil {
				return nowhere, err
			}
		}
		far = max(far, reached)
	}
	switch {
	case far > nowhere:
		return far, nil
	case missed:
		return nowhere, fail(kindNotFound, "")
	}
	return nowhere, w.refused()
}

// own is inside where the path names the seat or the flight of a hat's own.
func (s *server) own(c *gin.Context, h hat, what reach) (reach, error) {
	theirs, name := h.judge, "judge"
	if what == ownFlight {
		theirs, name = h.pilot, "flight"
	}
	asked, err := uuid.Parse(c.Param(name))
	if err != nil || theirs == uuid.Nil {
		return nowhere, nil //nolint:nilerr // what is no id is nobody's own; the request's check says so
	}
	if what == ownFlight {
		if asked, err = s.db.PilotOf(c, asked); err != nil {
			return nowhere, err
		}
	}
	if asked != theirs {
		return nowhere, nil
	}
	return inside, nil
}

// ownPilots are the pilots in whose name somebody may act in a contest, where
// that is as far as they may go; all is true where they may go farther.
func (s *server) ownPilots(ctx context.Context, kind string, id uuid.UUID) (own []uuid.UUID, all bool, err error) {
	if reachOf(ctx) != ownPilot {
		return nil, true, nil
	}
	contest, err := s.contestBehind(ctx, kind, id)
	if err != nil {
		return nil, false, err
	}
	hats, _ := whoOf(ctx).in(contest)
	for _, h := range hats {
		if h.pilot != uuid.Nil {
			own = append(own, h.pilot)
		}
	}
	return own, false, nil
}

// of is how far a role may go by a line of the table.
func (r rights) of(who role) reach {
	for r[who] == unsaid && who != anyone {
		who = builds[who]
	}
	return max(r[who], nowhere)
}

// reachOf is how far the request of a context may go.
func reachOf(ctx context.Context) reach {
	far, _ := ctx.Value(reachKey).(reach)
	return far
}

// reachAt is how far the request of a context may go in a contest that its path
// does not name.
func reachAt(ctx context.Context, contest uuid.UUID) reach {
	r, _ := ctx.Value(rightsKey).(rights)
	hats, _ := whoOf(ctx).in(contest)
	far := nowhere
	for _, h := range hats {
		far = max(far, r.of(h.role))
	}
	return far
}

// mayRead tells whether a request may read of a contest what the operation
// gives, by how the contest is opened. A closed contest is not there at all.
func mayRead(far reach, is Opened) error {
	switch {
	case far >= inside:
		return nil
	case is != Published && is != Live:
		return fail(kindNotFound, "")
	case far == opened, far == live && is == Live:
		return nil
	}
	return fail(kindRefused, "")
}
