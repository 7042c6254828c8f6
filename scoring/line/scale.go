package line

import "strings"

// IsGrade tells whether a text is a grade as records and signatures write it:
// "0.0" to "10.0" in halves with one decimal, "HZ", "PZ" or "A".
func IsGrade(text string) bool {
	return text == "HZ" || text == "PZ" || text == "A" || isNumber(text)
}

func isNumber(text string) bool {
	if text == "10.0" {
		return true
	}
	return len(text) == 3 && text[0] >= '0' && text[0] <= '9' && text[1] == '.' && (text[2] == '0' || text[2] == '5')
}

// course is the common way of an attempt: of two statuses in it the further
// one holds, whoever was slower to say so.
var course = []string{StatusCalled, StatusFlying, StatusLanded, StatusClosed}

func isStatus(text string) bool {
	switch text {
	case StatusCalled, StatusFlying, StatusLanded, StatusClosed, StatusInterrupted:
		return true
	}
	return isUnflown(text)
}

// isUnflown tells whether the status ends a flight without a score.
func isUnflown(status string) bool {
	return status == StatusNotFlown || status == StatusWithdrawn || status == StatusDisqualified
}

// IsOver tells whether nothing more is expected of a flight of this status.
func IsOver(status string) bool { return status == StatusClosed || isUnflown(status) }

// rulingFamily names the question that a ruling answers, "" for no ruling.
// Rulings of one family on one item replace and contradict one another.
func rulingFamily(ruling string) string {
	switch ruling {
	case HardZeroConfirmed, HardZeroOverruled, HardZeroWithdrawn:
		return "hard-zero"
	case PerceptionZeroConfirmed, PerceptionZeroOverruled, PerceptionZeroWithdrawn:
		return "perception-zero"
	case GradeSet, GradeWithdrawn:
		return "grade"
	}
	return ""
}

// isWithdrawal tells whether a ruling only takes another one back.
func isWithdrawal(ruling string) bool {
	return ruling == HardZeroWithdrawn || ruling == PerceptionZeroWithdrawn || ruling == GradeWithdrawn
}

// isUUID tells whether a text is a UUID of any version, 8-4-4-4-12 in lower
// case: ids are compared as text.
func isUUID(text string) bool {
	if len(text) != 36 {
		return false
	}
	for i := range len(text) {
		dash := i == 8 || i == 13 || i == 18 || i == 23
		if dash != (text[i] == '-') || !dash && !isHex(text[i]) {
			return false
		}
	}
	return true
}

func isDigest(text string) bool {
	return len(text) == 64 && strings.IndexFunc(text, func(r rune) bool { return r > 'f' || !isHex(byte(r)) }) < 0
}

func isHex(b byte) bool { return b >= '0' && b <= '9' || b >= 'a' && b <= 'f' }
