package plain

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Letters says which characters a terminal or a printer has.
type Letters func(r rune) bool

// ASCII is what everything has.
func ASCII(r rune) bool { return r < 0x80 }

// PC is code page 437, which is all that the font of a bare console is sure to
// have.
func PC(r rune) bool { return r < 0x80 || strings.ContainsRune(page437, r) }

// page437 is the upper half of code page 437, as Unicode's own table has it
// (CP437.TXT), and those of the pictures in place of control codes that Bathside
// writes (4, 9, 30 and 31, from memory); a test holds it against that table.
const page437 = "ÇüéâäàåçêëèïîìÄÅÉæÆôöòûùÿÖÜ¢£¥₧ƒáíóúñÑªº¿⌐¬½¼¡«»░▒▓│┤╡╢╖╕╣║╗╝╜╛┐└┴┬├─┼╞╟╚╔╩╦╠═╬╧╨╤╥╙╘╒╓╫╪┘┌█▄▌▐▀αßΓπΣσµτΦΘΩδ∞φε∩≡±≥≤⌠⌡÷≈°∙·√ⁿ²■\u00a0♦○▲▼"

// In writes s with the letters that are there: a sign by its stand-in, a letter
// without its accent, and a question mark for what has neither. The length may
// change: "±" becomes "+/-".
func In(s string, has Letters) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return !has(r) }) {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		b.WriteString(one(r, has))
	}
	return b.String()
}

// one is a single character in the letters that are there.
func one(r rune, has Letters) string {
	if has(r) {
		return string(r)
	}
	if s, ok := standIn[r]; ok {
		return s
	}
	if unicode.Is(unicode.M, r) {
		return "" // an accent that stands by itself
	}
	base := ""
	for _, part := range norm.NFKD.String(string(r)) {
		switch s, ok := standIn[part]; {
		case has(part):
			base += string(part)
		case ok:
			base += s
		case !unicode.Is(unicode.M, part):
			return "?"
		}
	}
	if base == "" {
		return "?"
	}
	return base
}

// standIn is what stands for a sign or a letter that cannot be taken apart: the
// signs that Bathside itself writes, and what is common in names.
var standIn = map[rune]string{
	'°': "", '×': "x", '·': "-", '•': "*", '…': "...", '±': "+/-", '–': "-", '—': "-", '−': "-", '‑': "-",
	'‘': "'", '’': "'", '“': `"`, '”': `"`, '«': `"`, '»': `"`, '„': `"`, '‚': ",",
	'✓': "+", '✗': "X", '▸': ">", '▲': "^", '▼': "v", '●': "o", '○': "o", '◆': "*", '◉': "@", '■': "#", '□': "-",
	'←': "<-", '→': "->", '↑': "^", '↓': "v", '≤': "<=", '≥': ">=", '≈': "~", '√': "sqrt ", 'µ': "u", 'μ': "u", '½': "1/2", '¼': "1/4",
	'─': "-", '━': "=", '│': "|", '┃': "|", '┌': "+", '┐': "+", '└': "+", '┘': "+", '├': "+", '┤': "+", '┬': "+", '┴': "+", '┼': "+", '┊': ":",
	'░': ":", '▒': "%", '▓': "%", '█': "#",
	'ß': "ss", 'æ': "ae", 'Æ': "AE", 'œ': "oe", 'Œ': "OE", 'ø': "o", 'Ø': "O", 'đ': "d", 'Đ': "D", 'ð': "d", 'Ð': "D",
	'ł': "l", 'Ł': "L", 'þ': "th", 'Þ': "Th", 'ı': "i", 'ħ': "h", 'Ħ': "H",
}
