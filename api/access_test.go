package api_test

import (
	"cmp"
	"maps"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/google/uuid"

	"halfpoint/api"
	"halfpoint/db"
)

// An answers row says how an operation is answered, whatever is sent with it
// being empty. It is written here apart from the table of the service.
type answers struct {
	closed, published, live int    // to anyone, by how the contest is opened; 401 is 403 to whoever is signed in
	may                     string // parts that it is answered ok, however the contest is opened
	ok                      int
	not                     string // parts that are refused with 403 though anyone may
}

const (
	everybody = deviceParts + " " + members + " token"
	members   = "pilot rival jury office director owner" // accounts that see a contest however it is opened
	officials = "jury " + offices                        // who see everything of the line and of the results
	offices   = "office " + directors
	directors = "director owner token"
	owners    = "owner token"
	accounts  = accountParts
)

// whoMay is the table of who may do what, as it is expected.
var whoMay = map[string]answers{
	"listContests":        {200, 200, 200, everybody, 200, ""},
	"getContest":          {404, 200, 200, everybody, 200, ""},
	"getProgramme":        {404, 200, 200, everybody, 200, ""},
	"getOrder":            {404, 200, 200, "chief announcer " + members + " token", 200, "judge other assistant"},
	"putOrder":            {401, 401, 401, offices, 422, ""}, // every flight was called
	"drawOrder":           {401, 401, 401, offices, 422, ""}, // a lot cannot be reversed
	"getProgrammeResults": {404, 403, 200, "chief announcer " + officials, 200, "judge other assistant"},
	"getCategoryResults":  {404, 403, 200, "chief announcer " + officials, 200, "judge other assistant"},
	"getProgrammeChanges": {404, 403, 200, "chief announcer " + officials, 200, "judge other assistant"},
	"getCategoryChanges":  {404, 403, 200, "chief announcer " + officials, 200, "judge other assistant"},
	"getFlightWorking":    {404, 403, 200, "chief " + officials, 200, "judge other assistant announcer"},
	"getPilot":            {404, 200, 200, "chief announcer " + members + " token", 200, "judge other assistant"},
	"getToldOfPilot":      {401, 401, 401, "pilot " + offices, 200, ""},
	"putPilotNote":        {401, 401, 401, "pilot " + offices, 200, ""},
	"getFlightResult":     {404, 403, 200, "chief " + officials, 200, "judge other assistant announcer"},
	"getJudgeSheet":       {404, 403, 200, "judge chief " + officials, 200, "assistant announcer"},
	"listPaper":           {401, 401, 401, offices, 200, ""},
	"getPaper":            {401, 401, 401, offices, 200, ""},
	"keyPaper":            {401, 401, 401, offices, 409, ""}, // the flight is closed
	"forgetPaper":         {401, 401, 401, offices, 204, ""},
	"streamEvents":        {404, 403, 200, everybody, 200, ""},
	"exportBundle":        {401, 401, 401, offices, 200, ""},
	"getSetup":            {401, 401, 401, offices, 200, ""},
	"changeSetup":         {401, 401, 401, offices, 200, ""},
	"getPilotTable":       {401, 401, 401, offices, 200, ""},
	"readPilotTable":      {401, 401, 401, offices, 200, ""},
	"getOfficialTable":    {401, 401, 401, offices, 200, ""},
	"readOfficialTable":   {401, 401, 401, offices, 200, ""},
	"copyContest":         {401, 401, 401, owners, 400, ""},
	"importBundle":        {401, 401, 401, owners, 422, ""},
	"createContest":       {401, 401, 401, owners, 400, ""},

	"checkSequence":            {422, 422, 422, "", 0, ""}, // it has no items
	"getLimits":                {404, 200, 200, everybody, 200, ""},
	"putLimits":                {401, 401, 401, offices, 200, ""},
	"getNumbers":               {401, 401, 401, offices, 200, ""},
	"putNumbers":               {401, 401, 401, offices, 200, ""},
	"getProgrammeSequence":     {404, 200, 200, everybody, 200, ""},
	"putProgrammeSequence":     {401, 401, 401, offices, 422, ""},
	"signOffProgrammeSequence": {401, 401, 401, offices, 409, ""}, // another sequence is there
	"releaseProgrammeSequence": {401, 401, 401, offices, 409, ""}, // it is a known one
	"listSequences":            {401, 401, 401, offices, 200, ""},
	"getFlightSequence":        {404, 200, 200, everybody, 200, ""},
	"putFlightSequence":        {401, 401, 401, "pilot " + offices, 409, ""}, // all fly the programme's
	"putFlightDescription":     {401, 401, 401, "pilot " + offices, 409, ""}, // the same
	"signOffFlightSequence":    {401, 401, 401, offices, 409, ""},

	"listContestPublications":       {404, 200, 200, everybody, 200, ""},
	"listProgrammePublications":     {404, 200, 200, everybody, 200, ""},
	"listCategoryPublications":      {404, 200, 200, everybody, 200, ""},
	"getLatestProgrammePublication": {404, 200, 200, everybody, 200, ""},
	"getLatestCategoryPublication":  {404, 200, 200, everybody, 200, ""},
	"getPublication":                {404, 200, 200, everybody, 200, ""},
	"getPublicationBundle":          {404, 200, 200, everybody, 200, ""},
	"getPublicationResults":         {404, 200, 200, everybody, 200, ""},
	"getPublicationArchive":         {404, 200, 200, everybody, 200, ""},
	"getPublicationSheets":          {404, 200, 200, everybody, 200, ""},
	"getPublicationWorking":         {404, 200, 200, everybody, 200, ""},
	"getPublicationChanges":         {404, 200, 200, everybody, 200, ""},
	"listKeys":                      {200, 200, 200, "", 0, ""},
	"publishProgramme":              {401, 401, 401, directors, 200, ""},
	"publishCategory":               {401, 401, 401, directors, 200, ""},
	"setCounting":                   {401, 401, 401, directors, 200, ""},
	"listAnalyses":                  {404, 200, 200, "judge other seated chief " + officials, 200, ""},
	"getPanelAnalysis":              {404, 200, 200, "chief " + officials, 200, ""}, // the director has opened it
	"getJudgeAnalysis":              {401, 401, 401, "judge seated " + officials, 200, ""},
	"publishAnalysis":               {401, 401, 401, directors, 204, ""},
	"previewProgrammePublication":   {401, 401, 401, offices, 200, ""},
	"previewCategoryPublication":    {401, 401, 401, offices, 200, ""},
	"listNeeds":                     {401, 401, 401, offices, 200, ""},
	"auditContest":                  {401, 401, 401, offices, 200, ""},
	"listProtests":                  {401, 401, 401, "pilot rival " + officials, 200, ""},
	"fileProtest":                   {401, 401, 401, "pilot " + offices, 200, ""}, // for the pilot of the flight
	"decideProtest":                 {401, 401, 401, directors, 200, ""},
	"offerPairing":                  {401, 401, 401, offices, 400, ""},
	"readPairing":                   {422, 422, 422, "", 0, ""},
	"claimPairing":                  {400, 400, 400, "", 0, ""},
	"listDevices":                   {401, 401, 401, offices, 200, ""},
	"withdrawDevice":                {401, 401, 401, offices, 404, ""},
	"getLinePlan":                   {401, 401, 401, deviceParts, 400, ""},
	"getLineItems":                  {401, 401, 401, deviceParts, 200, ""},
	"getAnnouncement":               {401, 401, 401, "announcer " + offices, 200, ""},
	"deliverRecords":                {400, 400, 400, "", 0, ""},

	"listSeasons":         {200, 200, 200, everybody, 200, ""},
	"makeSeason":          {401, 401, 401, directors, 201, ""},
	"getSeason":           {404, 200, 200, everybody, 200, ""},
	"changeSeason":        {401, 401, 401, directors, 200, ""},
	"deleteSeason":        {401, 401, 401, directors, 409, ""}, // another revision
	"getSeasonPeople":     {401, 401, 401, offices, 200, ""},
	"confirmSeasonPeople": {401, 401, 401, offices, 409, ""},

	"makeFirstAccount":    {400, 400, 400, "", 0, ""},
	"signIn":              {400, 400, 400, "", 0, ""},
	"signInByLink":        {400, 400, 400, "", 0, ""},
	"resetPassword":       {400, 400, 400, "", 0, ""},
	"readOffer":           {400, 400, 400, "", 0, ""},
	"acceptInvitation":    {400, 400, 400, "", 0, ""},
	"signOut":             {401, 401, 401, deviceParts + " " + accounts, 204, ""},
	"getMe":               {401, 401, 401, deviceParts + " " + accounts, 200, ""},
	"listSessions":        {401, 401, 401, accounts, 200, ""},
	"withdrawSession":     {401, 401, 401, accounts, 404, ""},
	"confirmPassword":     {401, 401, 401, accounts + " token", 400, ""},
	"changePassword":      {401, 401, 401, accounts + " token", 400, ""},
	"prepareSecondFactor": {401, 401, 401, accounts, 200, ""},
	"confirmSecondFactor": {401, 401, 401, accounts + " token", 400, ""},
	"removeSecondFactor":  {401, 401, 401, accounts, 204, ""},
	"listInvitations":     {401, 401, 401, directors, 200, ""},
	"invite":              {401, 401, 401, directors, 400, ""},
	"withdrawInvitation":  {401, 401, 401, directors, 404, ""},
	"listMembers":         {401, 401, 401, directors, 200, ""},
	"removeMember":        {401, 401, 401, directors, 404, ""},

	"getHealth":    {200, 200, 200, "", 0, ""},
	"getReadiness": {200, 200, 200, "", 0, ""},
}

// bodies are what is sent where it is not an empty object.
var bodies = map[string]string{
	"putNumbers": "number,k\n", "readPilotTable": "name\n", "readOfficialTable": "name\n", "signOffProgrammeSequence": `{"digest": ""}`, "signOffFlightSequence": `{"digest": ""}`,
	"releaseProgrammeSequence": `{"digest": ""}`,
	"putPilotNote":             `{"text": "Flew gliders first.", "replaces": ""}`, "putFlightDescription": `{"text": "", "replaces": ""}`,
	"keyPaper":         `{"id": "0197f2a4-6c1e-7b3a-9d52-8e4f10c6a2b7", "entries": [], "signed": true}`,
	"publishProgramme": `{"state": "provisional", "protest_minutes": 60}`, "publishCategory": `{"state": "provisional"}`,
	"makeSeason": `{"name": "Northern League"}`, "confirmSeasonPeople": `{"revision": 99, "people": []}`,
	"changeSeason": `{"name": "Northern League", "revision": 1, "parts": [{"category": "{category}", "class": "Sportsman"}],
		"rules": {"points": "percent-of-maximum", "table": [], "ties": "mean", "best": 0, "drop": 0, "least": 0, "tie_break": [], "affiliations": []}}`,
	"setCounting": `{"counts": true, "abandoned": false, "reason": "As flown."}`, "decideProtest": `{"upheld": false, "text": "No."}`,
	"fileProtest": `{"pilot": "{pilot}", "text": "Mine."}`,
	"putOrder":    `{"revision": 0, "pilots": []}`, "drawOrder": `{"revision": 0, "by": "lot", "reversed": true}`,
}

// queries are what is asked behind a path.
var queries = map[string]string{"deleteSeason": "?revision=99"}

// to is what a part is to be answered, by how the contest is opened.
func (a answers) to(part, opened, path string) int {
	anyone := map[string]int{db.Closed: a.closed, db.Published: a.published, db.Live: a.live}[opened]
	may := func(part string) bool { return strings.Contains(" "+a.may+" ", " "+part+" ") }
	switch {
	case part == "nobody":
		return anyone
	case part == "stranger" && isPlaced(path):
		return a.toStranger(anyone, may("director"))
	case part == "stranger" && may("director"), may(part):
		return a.ok
	case part == "other" && may("judge"), part == "rival" && may("pilot"):
		return http.StatusNotFound // another's
	case strings.Contains(" "+a.not+" ", " "+part+" "), anyone == http.StatusUnauthorized:
		return http.StatusForbidden
	}
	return anyone
}

// toStranger answers somebody who could do it elsewhere that there is no such
// thing, and anybody else what anyone is answered.
func (a answers) toStranger(anyone int, elsewhere bool) int {
	switch {
	case anyone != http.StatusUnauthorized:
		return anyone
	case elsewhere:
		return http.StatusNotFound
	}
	return http.StatusForbidden
}

func isPlaced(path string) bool {
	for _, kind := range []string{"contest", "category", "programme", "flight", "publication", "protest", "season"} {
		if strings.Contains(path, "{"+kind+"}") {
			return true
		}
	}
	return false
}

// TestWhoMayDoWhat walks every operation of the contract as everybody there is,
// in a contest opened in each way, beside another contest.
func TestWhoMayDoWhat(t *testing.T) {
	t.Parallel()
	s := start(t)
	elsewhere, pairs := s.imports(bundleOf(t, "108"), db.Closed), 0
	for i, opened := range []string{db.Closed, db.Published, db.Live} {
		s.client = clientFrom(i + 1) // more is asked than one address may
		contest := s.imports(bundleOf(t, "108"), opened)
		everyone, places := castAt(s, contest, elsewhere), s.placesOf(contest)
		s.eachOperation(func(o operation) {
			row, ok := whoMay[o.id]
			if !ok {
				t.Errorf("nobody has said who may do %s", o.id)
			}
			for _, part := range everyone.parts() {
				want := row.to(part, opened, o.path)
				if got := s.status(everyone.as(part, o.request(places))); got != want {
					t.Errorf("%s contest, %s, %s: %d, want %d", opened, part, o.id, got, want)
				}
				pairs++
			}
			if o.id == "signOut" { // and everybody was
				everyone = castAt(s, contest, elsewhere)
			}
		})
	}
	t.Logf("%d pairs of a part and an operation, in three openings", pairs)
}

// TestNothingElsewhereIsThere asks for what does not exist, as the office.
func TestNothingElsewhereIsThere(t *testing.T) {
	t.Parallel()
	s := start(t)
	nowhere := uuid.NewString()
	paths := strings.NewReplacer("{contest}", nowhere, "{category}", nowhere, "{programme}", nowhere,
		"{flight}", nowhere, "{judge}", nowhere, "{session}", nowhere, "{invitation}", nowhere, "{account}", nowhere, "{role}", "jury",
		"{season}", nowhere, "{publication}", nowhere, "{pilot}", nowhere, "{protest}", nowhere, "{device}", nowhere)
	s.eachOperation(func(o operation) {
		if !strings.Contains(o.path, "{") {
			return
		}
		want := http.StatusNotFound
		switch o.id {
		case "withdrawSession":
			want = http.StatusForbidden // the office has no session of its own
		case "getLineItems":
			want = http.StatusForbidden // the office is no device
		case "invite", "offerPairing", "copyContest":
			want = http.StatusBadRequest // of an empty object
		}
		r := o.request(paths)
		r.token = token
		if got := s.status(r); got != want {
			t.Errorf("%s of nothing: %d, want %d", o.id, got, want)
		}
	})
}

func TestListShowsWhatIsOpened(t *testing.T) {
	t.Parallel()
	s := start(t)
	b := bundleOf(t, "108")
	s.imports(b, db.Closed)
	published, live := s.imports(b, db.Published), s.imports(b, db.Live)

	all := get[api.ContestPage](s, "/api/v1/contests")
	if len(all.Contests) != 3 || all.Next != nil {
		t.Errorf("the office is shown %d contests and a next page %v; want 3 and none", len(all.Contests), all.Next)
	}
	first := get[api.ContestPage](s, "/api/v1/contests?limit=1")
	if len(first.Contests) != 1 || first.Contests[0].ID != live || first.Next == nil {
		t.Fatalf("the first page of one is %v", first)
	}
	second := get[api.ContestPage](s, "/api/v1/contests?limit=1&after="+first.Next.String())
	if len(second.Contests) != 1 || second.Contests[0].ID != published {
		t.Errorf("the second page of one is %v", second)
	}
	if a := s.send(request{path: "/api/v1/contests"}); strings.Count(a.body, `"opened":`) != 2 || strings.Contains(a.body, `"closed"`) {
		t.Errorf("anyone is shown %s", a.body)
	}
}

// An operation is one of the contract.
type operation struct {
	id, method, path string
	takes            string // the type of what is sent with it; empty for nothing
}

// request is one for the operation in a place, with a body where something is
// to be sent.
func (o operation) request(places *strings.Replacer) request {
	r := request{method: o.method, path: places.Replace(o.path) + queries[o.id]}
	if o.takes != "" {
		r.body, r.contentType = places.Replace(cmp.Or(bodies[o.id], "{}")), o.takes
	}
	return r
}

// eachOperation calls f for every operation of the contract as it is served.
func (s *service) eachOperation(f func(operation)) {
	s.t.Helper()
	s.eachContracted(func(o operation, _ *openapi3.Operation) { f(o) })
}

// eachContracted calls f for every operation with what the contract says of it,
// in the order of their paths.
func (s *service) eachContracted(f func(operation, *openapi3.Operation)) {
	s.t.Helper()
	spec, err := openapi3.NewLoader().LoadFromData([]byte(s.send(request{path: "/api/v1/openapi.json"}).body))
	if err != nil {
		s.t.Fatal(err)
	}
	for _, path := range spec.Paths.InMatchingOrder() {
		operations := spec.Paths.Value(path).Operations()
		for _, method := range slices.Sorted(maps.Keys(operations)) {
			o, sent := operations[method], ""
			if o.RequestBody != nil {
				for sent = range o.RequestBody.Value.Content {
				}
			}
			f(operation{o.OperationID, method, path, sent}, o)
		}
	}
}

// placesOf replaces the parameters of paths by what is in a contest.
func (s *service) placesOf(contest uuid.UUID) *strings.Replacer {
	s.t.Helper()
	part, err := s.db.ContestBundle(s.t.Context(), contest)
	if err != nil {
		s.t.Fatal(err)
	}
	category := part.Categories[0]
	programme := category.Programmes[0]
	judge := part.Judges[part.Bundle.Categories[0].Programmes[0].Panel[0]]
	pilot := part.Pilots[part.Bundle.Categories[0].Programmes[0].Flights[0].Pilot]
	published, protest := s.publishes(programme.ID, pilot)
	if err := s.db.OpenAnalysis(s.t.Context(), programme.ID, ""); err != nil {
		s.t.Fatal(err)
	}
	season, err := s.db.MakeSeason(s.t.Context(), "Northern League", "")
	if err != nil {
		s.t.Fatal(err)
	}
	if err := s.db.ChangeSeason(s.t.Context(), season, northern(category.ID)); err != nil {
		s.t.Fatal(err)
	}
	return strings.NewReplacer("{season}", season.String(), "{pilot}", pilot.String(), "{publication}", published.String(), "{protest}", protest.String(),
		"{contest}", contest.String(), "{category}", category.ID.String(),
		"{programme}", programme.ID.String(), "{flight}", programme.Flights[0].ID.String(), "{judge}", judge.String(),
		"{session}", uuid.NewString(), "{invitation}", uuid.NewString(), "{account}", uuid.NewString(), "{role}", db.RoleJury, "{device}", uuid.NewString())
}

// status sends a request and reads no more than how it is answered.
func (s *service) status(r request) int {
	s.t.Helper()
	response := s.do(r)
	response.Body.Close()
	return response.StatusCode
}
