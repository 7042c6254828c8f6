package publication

import (
	"bytes"
	"crypto/ed25519"
	"fmt"

	"halfpoint/scoring"
)

// A Finding is one thing that was checked, in words.
type Finding struct {
	Agrees bool
	Text   string
}

// A Report is what was found out about a publication.
type Report struct {
	Statement *Statement // nil where it cannot be read
	Findings  []Finding
}

// Agrees tells whether nothing was found to disagree.
func (r *Report) Agrees() bool {
	for _, f := range r.Findings {
		if !f.Agrees {
			return false
		}
	}
	return true
}

func (r *Report) say(agrees bool, yes, no string) {
	text := yes
	if !agrees {
		text = no
	}
	r.Findings = append(r.Findings, Finding{agrees, text})
}

// Check finds out all that can be known of a publication by itself: whether the
// statement is signed, whether the key is the one with this fingerprint (any,
// where it is empty), whether reason, bundle and results are those of the
// statement, and whether the results follow from the bundle.
func (p *Publication) Check(fingerprint string) *Report {
	r := &Report{}
	p.checkSignature(r, fingerprint)
	statement, err := Read(string(p.Statement))
	if err != nil {
		r.say(false, "", err.Error())
		return r
	}
	r.Statement = statement
	of := Fingerprint(p.PublicKey)
	r.say(statement.Key == of, "the statement names that key", "the statement names another key, "+statement.Key)
	checkHash(r, fileReason, statement.Reason, HashOf(p.Reason))
	checkHash(r, fileBundle, statement.Bundle, HashOf(p.Bundle))
	checkHash(r, fileResults, statement.Results, HashOf(p.Results))
	p.recompute(r)
	return r
}

func (p *Publication) checkSignature(r *Report, fingerprint string) {
	of := Fingerprint(p.PublicKey)
	r.say(ed25519.Verify(p.PublicKey, p.Statement, p.Signature),
		"the statement is signed with the key "+of, "the signature is not one of the key "+of+" under this statement")
	if fingerprint != "" {
		r.say(of == fingerprint, "that is the key that was asked for", "the key that was asked for is "+fingerprint)
	}
}

func checkHash(r *Report, file string, stated, found Hash) {
	r.say(stated == found, file+" has the stated SHA-256",
		fmt.Sprintf("%s is not the stated one: its SHA-256 is %s, the statement says %s", file, found, stated))
}

// mostListed bounds how many differences are listed one by one.
const mostListed = 20

// recompute scores the bundle again and compares what comes out.
func (p *Publication) recompute(r *Report) {
	bundle, err := scoring.DecodeBundle(p.Bundle)
	if err != nil {
		r.say(false, "", fmt.Sprintf("the bundle cannot be scored: %v", err))
		return
	}
	computed := scoring.Score(bundle).Encode()
	if bytes.Equal(computed, p.Results) {
		r.say(true, "the results follow from the bundle, to the last digit", "")
		return
	}
	differences, err := compare(p.Results, computed)
	if err != nil {
		r.say(false, "", fmt.Sprintf("the results cannot be read: %v", err))
		return
	}
	r.say(len(differences) == 0, "the results follow from the bundle",
		fmt.Sprintf("the results do not follow from the bundle, in %d places", len(differences)))
	for _, d := range differences[:min(len(differences), mostListed)] {
		r.say(false, "", d)
	}
}
