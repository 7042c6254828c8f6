package scoring

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// Catalogue numbers are from memory: family 2 are turns, 6 tail slides, 9.1 to
// 9.8 rolls and hesitation rolls, 9.9 and 9.10 flicks, 9.11 and 9.12 spins.
func TestItemClass(t *testing.T) {
	for _, c := range []struct {
		elements, class, want string
	}{
		{"1.1.1.1", "", General},
		{"1.1.1.1 9.1.3.4", "", General},
		{"", "", General},
		{"1.2.6.1 9.11.1.4", "", Spin},
		{"1.2.6.1 9.12.1.6", "", Spin},
		{"1.1.1.1 9.9.3.4", "", Flick},
		{"1.1.1.1 9.10.3.4", "", Flick},
		{"6.2.1.1", "", Tailslide},
		{"6.2.1.1 9.1.1.1", "", Tailslide},
		{"2.2.1.1", "", General},
		{"2.1.3.1 9.1.3.3", "", RollingTurn},
		{"6.2.1.1 9.9.1.2", "", Flick},
		{"1.2.6.1 9.9.1.2 9.11.1.4", "", Spin},
		{"9.1.1.1", "", General},
		{"16.1 62.1 9.13.1", "", General}, // families of no such name
		{"1.1.1.1", Spin, Spin},
		{"1.2.6.1 9.11.1.4", General, General},
	} {
		item := Item{Elements: strings.Fields(c.elements), Class: c.class}
		if got := item.ItemClass(); got != c.want {
			t.Errorf("%s, given as %q: %s, want %s", c.elements, c.class, got, c.want)
		}
	}
}

// groupsOf lists the flights' rows of a free programme by their groups. A row
// is a class and a K: "g8" is general, s a spin, f a flick, o an overall mark.
func groupsOf(least int, flights ...string) string {
	p := &Programme{Kind: Free, Method: Method{GroupMin: least}}
	var cleaned []*CleanFlight
	for _, text := range flights {
		f := &CleanFlight{}
		for word := range strings.FieldsSeq(text) {
			item := Item{Kind: Figure, Class: map[byte]string{'s': Spin, 'f': Flick}[word[0]], Name: word}
			if word[0] == 'o' {
				item.Kind = Overall
			}
			_, _ = fmt.Sscan(word[1:], &item.K)
			f.Items = append(f.Items, item)
		}
		cleaned = append(cleaned, f)
	}
	groups, n := groupRows(p, cleaned)
	rows := make([][]string, n)
	for i, f := range cleaned {
		for item := range f.Items {
			g := groups[i][item]
			rows[g] = append(rows[g], f.Items[item].Name)
		}
	}
	texts := make([]string, n)
	for g := range rows {
		slices.Sort(rows[g])
		texts[g] = strings.Join(rows[g], " ")
	}
	return strings.Join(texts, " | ")
}

// TestGroupsOfAFree: by hand, with at least three rows a group.
func TestGroupsOfAFree(t *testing.T) {
	for _, c := range []struct {
		what    string
		flights []string
		want    string
	}{
		{"eight rows make two groups of four, by K", []string{"g8 g1 g3 g6", "g7 g2 g4 g5"}, "g1 g2 g3 g4 | g5 g6 g7 g8"},
		{"seven make one of four and one of three", []string{"g7 g1 g3 g6", "g2 g4 g5"}, "g1 g2 g3 g4 | g5 g6 g7"},
		{"two make one", []string{"g2", "g1"}, "g1 g2"},
		{"classes stay apart", []string{"g1 s1 g3 s3", "g2 s2"}, "g1 g2 g3 | s1 s2 s3"},
		{"a small class joins the general one", []string{"g1 s9 g3", "g4 s2"}, "g1 g3 g4 s2 s9"},
		{"where the general class is small, all are one", []string{"g1 s1 g3 s3", "s2 s4"}, "g1 s1 s2 | g3 s3 s4"},
		{"where there is no general row, classes stay apart", []string{"s1 f1 s3", "f2 f3 s2"}, "s1 s2 s3 | f1 f2 f3"},
		{"a small class may make a general one that is too small", []string{"s1 f9 s3", "f8 s2"}, "f8 f9 s1 s2 s3"},
		{"overall marks by their order", []string{"g1 o5 g2 o6", "o7 g3 g4 o8"}, "g1 g2 g3 g4 | o5 o7 | o6 o8"},
	} {
		is(t, c.what, groupsOf(3, c.flights...), c.want)
	}
}

// TestGroupsByKThenFlight: of equal K the earlier flight's rows go first.
func TestGroupsByKThenFlight(t *testing.T) {
	flights := []*CleanFlight{{Items: make([]Item, 3)}, {Items: make([]Item, 3)}}
	groups, n := groupRows(&Programme{Kind: Freestyle, Method: Method{GroupMin: 3}}, flights)
	if got := fmt.Sprint(groups, n); got != "[[0 0 0] [1 1 1]] 2" {
		t.Errorf("groups %s", got)
	}
}

// TestGroupsOfAKnown: each item is one.
func TestGroupsOfAKnown(t *testing.T) {
	flights := []*CleanFlight{{Items: make([]Item, 3)}, {Items: make([]Item, 3)}}
	groups, n := groupRows(&Programme{Kind: Unknown, Method: DefaultMethod(Consensus)}, flights)
	if got := fmt.Sprint(groups, n); got != "[[0 1 2] [0 1 2]] 3" {
		t.Errorf("groups %s", got)
	}
}
