package line

import (
	"encoding/json"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func TestCheckVectors(t *testing.T) {
	var file struct {
		Vectors []struct {
			Name   string   `json:"name"`
			Record Stored   `json:"record"`
			Faults []string `json:"faults"`
		} `json:"vectors"`
	}
	readStrict(t, filepath.Join(vectorDir, "checks.json"), &file)
	good := map[Kind]bool{}
	for _, v := range file.Vectors {
		fields := []string{}
		for _, f := range Check(v.Record) {
			fields = append(fields, f.Field)
			if f.Text == "" {
				t.Errorf("%s: %s is not explained", v.Name, f.Field)
			}
		}
		if len(v.Faults) == 0 {
			good[v.Record.Kind] = true
		}
		if slices.Sort(fields); !slices.Equal(fields, v.Faults) {
			t.Errorf("%s: faults %q, want %q", v.Name, fields, v.Faults)
		}
	}
	if len(good) != len(kinds) {
		t.Errorf("well-formed records of %d kinds, want %d", len(good), len(kinds))
	}
}

// What JSON cannot carry but a caller can.
func TestCheckBeyondJSON(t *testing.T) {
	penalty := Stored{Record{Seq: 1, ID: wire(1), Kind: KindPenalty, Flight: wire(2)}, Author{Role: RoleChief}}
	for _, points := range []float64{math.NaN(), math.Inf(1)} {
		penalty.Penalty = &Penalty{"low", 1, points}
		if faults := Check(penalty); len(faults) != 1 || faults[0].Field != "penalty/points" {
			t.Errorf("points %v: %v", points, faults)
		}
	}
	grade := Stored{Record{Seq: 1, ID: wire(1), Kind: KindGrade, Flight: wire(2), Judge: wire(3), Item: 1, Grade: "7.0", Sequence: sum(nil)}, Author{Role: RoleJudge}}
	for remark, want := range map[string]int{strings.Repeat("ü", 500): 0, strings.Repeat("ü", 501): 1, "\xff": 1} {
		grade.Remark = remark
		if faults := Check(grade); len(faults) != want {
			t.Errorf("remark of %d bytes: %v", len(remark), faults)
		}
	}
}

func TestTheScale(t *testing.T) {
	var valid []string
	for _, text := range []string{"", "0", "7", "0.0", "0.5", "7.5", "9.5", "10.0", "10.5", "11.0", "-0.5", "7.25", "7.3", "07.5", "7,5", " 7.5", "1e1", "NaN", "HZ", "hz", "PZ", "A", "٧.5"} {
		if IsGrade(text) {
			valid = append(valid, text)
		}
	}
	want := []string{"0.0", "0.5", "7.5", "9.5", "10.0", "HZ", "PZ", "A"}
	if !slices.Equal(valid, want) {
		t.Errorf("on the scale: %q, want %q", valid, want)
	}
}

func TestSame(t *testing.T) {
	var a, b Record
	for text, into := range map[string]*Record{
		`{"seq":1,"id":"g","kind":"grade","flight":"f","replaces":[],"grade":"7.0"}`: &a,
		`{"grade":"7.0","flight":"f","kind":"grade","id":"g","seq":1,"attempt":1}`:   &b,
	} {
		if err := json.Unmarshal([]byte(text), into); err != nil {
			t.Fatal(err)
		}
	}
	if !a.Same(b) {
		t.Error("an empty list and attempt 1 are what is there when they are left out")
	}
	if b.Signature = "another one"; !a.Same(b) {
		t.Error("a record that was signed again is another one")
	}
	if b.Remark = "low"; a.Same(b) {
		t.Error("a remark is content")
	}
}
