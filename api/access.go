package api

import (
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
	closedOnly              // inside, and of what is flown only what a crowd may be told: that of closed flights, by [server.programmesFor] and [server.categoriesFor]
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
	"getProgrammeResults": {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, announcer: closedOnly, jury: inside, office: everywhere},
	"getCategoryResults":  {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, announcer: closedOnly, jury: inside, office: everywhere},
	"getProgrammeChanges": {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, announcer: closedOnly, jury: inside, office: everywhere},
	"getCategoryChanges":  {anyone: live, judge: nowhere, assistant: nowhere, chief: inside, announcer: closedOnly, jury: inside, office: everywhere},
	"getFlightWorking":    {anyone: live, judge: nowhere, assistant: nowhere, announcer: nowhere, chief: inside, jury: inside, office: everywhere},
	"getPilot":            {anyone: opened, judge: nowhere, assistant: nowhere, announcer: closedOnly, member: inside, office: everywhere},
	"getToldOfPilot":      {pilot: ownPilot, office: everywhere},
	"putPilotNote":        {pilot: ownPilot, office: everywhere},
	"getFlightResult":     {anyone: live, judge: nowhere, assistant: nowhere, announcer: nowhere, chief: inside, jury: inside, office: everywhere},
	"getJudgeSheet":       {anyone: live, judge: ownSeat, assistant: nowhere, announcer: nowhere, chief: inside, jury: inside, office: everywhere},
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
	"putFlightDescription":     {pilot: ownFlight, office: everywhere},
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
	"deleteSeason":        {director: everywhere},
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
