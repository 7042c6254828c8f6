package table_test

import (
	"reflect"
	"strings"
	"testing"

	"halfpoint/scoring/document"
	"halfpoint/scoring/table"
)

func cellsOf(rows []table.Row) (cells [][]string) {
	for _, row := range rows {
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

func TestSheet(t *testing.T) {
	t.Parallel()
	var report document.Report
	s := table.ReadSheet([]byte("Name;CODE;note\nAnn;1;z\n;;\nBea;2;x;y\n"), &report, "code", "name", "team")
	if got := report.Complaints().Error(); got != `row 1, column 3: "note" is no column of this table; known here: code, name, team`+"\n"+
		"row 4, column 4: there is no title above this cell" {
		t.Error(got)
	}
	if len(s.Records) != 2 || s.Records[1].Text("name") != "Bea" || s.Records[1].Text("team") != "" || s.Has("team") {
		t.Errorf("%+v", s)
	}
	if got := s.Records[1].Place("code"); got != "row 4, column 2" {
		t.Error(got)
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
		s := table.ReadSheet(text, &report, "cell", "beside")
		if got := s.Records[0].Text("cell"); got != cell || report.Err() != nil {
			t.Errorf("%q came back as %q, %v", cell, got, report.Err())
		}
	}
}
