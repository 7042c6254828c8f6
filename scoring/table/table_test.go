package table_test

import (
	"iter"
	"reflect"
	"slices"
	"strings"
	"testing"

	"halfpoint/scoring/document"
	"halfpoint/scoring/table"
)

func cellsOf(rows iter.Seq[table.Row]) (cells [][]string) {
	for row := range rows {
		cells = append(cells, row.Cells)
	}
	return cells
}

func TestEverySpreadsheetIsRead(t *testing.T) {
	t.Parallel()
	want := [][]string{{"code", "name"}, {"1", "Ann, the elder"}}
	for _, text := range []string{
		"code,name\n1,\"Ann, the elder\"\n",
		"\ufeffcode;name\r\n1;Ann, the elder\r\n",
		"code\tname\n1\tAnn, the elder",
		"code, name\n\n1, \"Ann, the elder\"\n",
	} {
		var report document.Report
		if got := cellsOf(table.Read([]byte(text), &report)); !reflect.DeepEqual(got, want) || report.Err() != nil {
			t.Errorf("%q: %q %v", text, got, report.Err())
		}
	}
}

// TestEveryRowThatIsNoTableIsNamed holds that one wrong row hides no other.
func TestEveryRowThatIsNoTableIsNamed(t *testing.T) {
	t.Parallel()
	var report document.Report
	rows := table.Read([]byte("a,b\n1,x\"y\n2,z\n3,\"w\" v\n"), &report)
	if got := cellsOf(rows); !reflect.DeepEqual(got, [][]string{{"a", "b"}, {"2", "z"}}) {
		t.Errorf("%q", got)
	}
	text := report.Complaints().Error()
	for _, want := range []string{"row 2, column 2: ", "row 4, column 2: "} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
}

// recordsOf reads a sheet to its end.
func recordsOf(text []byte, report *document.Report, titles ...string) (records []table.Record) {
	table.ReadSheet(text, report, titles, func(r table.Record) { records = append(records, r) })
	return records
}

func TestSheet(t *testing.T) {
	t.Parallel()
	var report document.Report
	records := recordsOf([]byte("Name;CODE;note\nAnn;1;z\n;;\nBea;2;x;y\n"), &report, "code", "name", "team")
	if got := report.Complaints().Error(); got != `row 1, column 3: "note" is no column of this table; known here: code, name, team`+"\n"+
		"row 4, column 4: there is no title above this cell" {
		t.Error(got)
	}
	if len(records) != 2 || records[1].Text("name") != "Bea" || records[1].Text("team") != "" || records[1].Has("team") {
		t.Errorf("%+v", records)
	}
}

// TestASheetIsComplainedOfInOrder has complaints of every kind in rows that do not
// have their columns in the order in which they are read, and more than are kept.
func TestASheetIsComplainedOfInOrder(t *testing.T) {
	t.Parallel()
	bound := document.Bound{Most: 3}
	places := func(text string) (found []string) {
		var report document.Report
		table.ReadSheet([]byte(text), &report, []string{"code", "name"}, func(r table.Record) {
			r.Check("code", bound, r.Text("code"))
			r.Check("name", bound, r.Text("name"))
		})
		for _, c := range report.Complaints() {
			found = append(found, c.Place)
		}
		return found
	}
	got := places("name,what,code\nlong,,long,beyond\nAnn,,\"x\" y\nAnn,,long\n")
	if want := []string{
		"row 1, column 2", "row 2, column 1", "row 2, column 3", "row 2, column 4", "row 3, column 3", "row 4, column 3",
	}; !slices.Equal(got, want) {
		t.Errorf("complaints about %q, want %q", got, want)
	}
	const kept = 1000 // as the package document keeps them
	if got := places("code\n" + strings.Repeat("long\n", kept+1)); len(got) != kept+1 || got[kept-1] != "row 1001, column 1" || got[kept] != "" {
		t.Errorf("%d complaints, the last about %q", len(got), got[len(got)-2:])
	}
	if got := places(""); !slices.Equal(got, []string{"row 1, column 1"}) {
		t.Errorf("an empty text is complained of at %q", got)
	}
}

// TestNothingWrittenIsComputed has cells as OWASP's page "CSV Injection" warns
// of, and reads back what was written.
func TestNothingWrittenIsComputed(t *testing.T) {
	t.Parallel()
	for _, cell := range []string{"=1+1", "+44", "-2", "@SUM(A1)", "'=1", "plain", "a;b,\"c\"", "'quoted'", ""} {
		text := table.Write([][]string{{"cell", "beside"}, {cell, "x"}})
		line := strings.Split(string(text), "\n")[1]
		if strings.ContainsAny(line[:1], "=+-@") {
			t.Errorf("%q is written as %q", cell, line)
		}
		var report document.Report
		if got := recordsOf(text, &report, "cell", "beside")[0].Text("cell"); got != cell || report.Err() != nil {
			t.Errorf("%q came back as %q, %v", cell, got, report.Err())
		}
	}
}
