package scoring

import "testing"

// TestWhatItTakes: worked by hand, as each case says.
func TestWhatItTakes(t *testing.T) {
	t.Parallel()
	others := []float64{2310.25, 2500, 2205.5, 2400.75}
	for name, test := range map[string]struct {
		place   int
		scores  []float64
		waiting int
		banked  float64
		left    K
		want    Need
	}{
		// 2500.01 / 340 = 7.35297…: 7.35 × 340 = 2499 is too little, 7.36 × 340 = 2502.4
		"the lead": {1, others, 0, 0, 3400, Need{1, NeedAverage, 2500.01, 7.36}},
		// the third has 2310.25; 2310.26 / 340 = 6.79488…
		"the podium": {3, others, 0, 0, 3400, Need{3, NeedAverage, 2310.26, 6.8}},
		// 2500.01 − 1210.5 = 1289.51; / 160.5 = 8.03433…
		"what is left": {1, others, 0, 1210.5, 1605, Need{1, NeedAverage, 2500.01, 8.04}},
		// 10 × 250 = 2500 is as much as the leader has
		"just beyond": {1, others, 0, 0, 2500, Need{1, NeedBeyond, 2500.01, 10.01}},
		// 250.001 × 10 = 2500.01
		"just within":     {1, []float64{2499.99}, 0, 0, 2500, Need{1, NeedAverage, 2500, 10}},
		"reached":         {1, others, 0, 2500.01, 100, Need{1, NeedAny, 2500.01, 0}},
		"nothing left":    {1, others, 0, 2500, 0, Need{1, NeedBeyond, 2500.01, 0}},
		"nobody yet":      {1, nil, 4, 0, 3400, Need{1, NeedAny, 0, 0}},
		"two before":      {3, others[:2], 1, 0, 3400, Need{3, NeedAny, 0, 0}},
		"of three pilots": {3, others[:1], 1, 0, 3400, Need{3, NeedCertain, 0, 0}},
		"alone":           {1, nil, 0, 0, 3400, Need{1, NeedCertain, 0, 0}},
	} {
		if got := NeedFor(test.place, test.scores, test.waiting, test.banked, test.left); got != test.want {
			t.Errorf("%s: %+v, want %+v", name, got, test.want)
		}
	}
}

// TestTheMeanIsExact: a flight whose every grade is the average asked for scores
// what was asked for, and one of a hundredth less does not.
func TestTheMeanIsExact(t *testing.T) {
	t.Parallel()
	items := []Item{{K: 123}, {K: 87}, {K: 215}} // K 12.3, 8.7 and 21.5: 42.5 in all
	n := NeedFor(1, []float64{318.4}, 0, 0, LeftOf(items, 1))
	if n.Average != 7.5 { // 318.41 / 42.5 = 7.49200
		t.Errorf("%+v, want an average of 7.50", n)
	}
	if left := LeftOf(items, 3); left != 215 {
		t.Errorf("from the third on K is %v, want 21.5", left)
	}
	if left := LeftOf(items, 4); left != 0 {
		t.Errorf("behind the last K is %v", left)
	}
}
