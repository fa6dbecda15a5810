package console

import "image"

// The smallest windows. Below small there is one sentence only.
const (
	smallW, smallH = 60, 16
	mediumW        = 80
	fullW          = 100
	stripH         = 2
	footerH        = 1
)

// layout says where things go in a window. It is a pure function of the size.
type layout struct {
	w, h   int
	tiny   bool            // too small for a screen
	one    bool            // one panel of Today at a time
	body   image.Rectangle // between strip and footer
	next   image.Rectangle
	trend  image.Rectangle
	cycle  image.Rectangle
	folded bool // the cycle panel shows its chosen item only
}

func arrange(w, h int) layout {
	l := layout{w: w, h: h, tiny: w < smallW || h < smallH}
	if l.tiny {
		return l
	}
	l.body = image.Rect(0, stripH, w, h-footerH)
	b := l.body
	if w < mediumW || h < 20 {
		l.one = true
		l.next, l.trend, l.cycle = b, b, b
		return l
	}
	l.folded = w < fullW || h < 26
	low := 13
	if l.folded {
		low = 6
	}
	if b.Dy() > 40 {
		low = 16
	}
	split := b.Min.Y + b.Dy() - low
	mid := b.Min.X + w/2
	l.next = image.Rect(b.Min.X, b.Min.Y, mid-1, split)
	l.trend = image.Rect(mid+1, b.Min.Y, b.Max.X, split)
	l.cycle = image.Rect(b.Min.X, split, b.Max.X, b.Max.Y)
	return l
}
