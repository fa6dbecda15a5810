package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"bathside/internal/advise"
	"bathside/internal/catalog"
	"bathside/internal/load"
	"bathside/internal/plain"
	"bathside/internal/units"
)

// minutesTable is how long each item is washed at the set point and in a bath
// 10 °C cooler. An item that may not go in has no minutes to be read there.
func minutesTable(x *advise.Snapshot, items []catalog.Item) []string {
	set := x.Set()
	cool := max(set-10, load.Coolest)
	lines := []string{
		"Minutes for light, normal, heavy soil; no: not in a bath of that temperature",
		minutesRow("", "at "+x.Sys.Temp(set), "at "+x.Sys.Temp(cool), "", ""),
		minutesRow("", "l    n    h", "l    n    h", "longest", "hottest bath"),
	}
	var first []string
	for _, item := range items {
		hot, cooler := minutes(x, item, set), minutes(x, item, cool)
		if hot == notThere && cooler != notThere {
			first = append(first, item.Plural)
		}
		longest := strconv.FormatFloat(item.Minutes.Longest, 'f', -1, 64)
		lines = append(lines, minutesRow(item.Name, hot, cooler, longest, hottest(x.Sys, item.Limit)))
	}
	if len(first) > 0 {
		lines = append(lines, paragraph("First, light soil, while the bath warms: "+strings.Join(first, ", ")+
			". Hotter only with the maker's paper on file. Count the heat that comes during the wash.")...)
	}
	return append(lines, "")
}

func minutesRow(name, hot, cool, longest, limit string) string {
	return cell(name, 22) + cell(hot, 16) + cell(cool, 16) + cell(longest, 10) + cell(limit, 14)
}

// cell is s cut or padded to so many columns, the last of them free.
func cell(s string, columns int) string {
	return pad(ansi.Truncate(ascii(plain.Line(s)), columns-1, ""), columns)
}

const notThere = "no   no   no"

// minutes are those for the three soils in a bath at that temperature.
func minutes(x *advise.Snapshot, item catalog.Item, at units.Temperature) string {
	var cells [3]string
	for i, soil := range []load.Soil{load.Light, load.Normal, load.Heavy} {
		c, err := load.Pick(item, soil, load.Conditions{
			Bath: at, Set: x.Set(), PerTenC: x.State.Site.Lengthen(), Units: x.Sys,
		})
		if err != nil || !c.Allowed { // a set point outside the band: nothing goes in
			return notThere
		}
		cells[i] = strconv.FormatFloat(c.Minutes, 'f', -1, 64)
	}
	return strings.TrimRight(fmt.Sprintf("%-5s%-5s%s", cells[0], cells[1], cells[2]), " ")
}

// hottest is a limit as its source prints it, never above the ceiling for all,
// with the station's own degrees beside it where the source has others.
func hottest(sys units.System, limit catalog.Limit) string {
	if limit.Hottest() > load.Ceiling.Hottest() {
		limit = load.Ceiling
	}
	if strings.HasSuffix(limit.Printed, sys.Unit(limit.At)[len("°"):]) {
		return limit.Printed
	}
	return limit.Printed + ", " + whole(sys, limit.At, math.Floor)
}

// itemCard is what to look at before an item goes in, and what follows.
func itemCard(item catalog.Item) []string {
	s := fmt.Sprintf("%s, %s, %s.", item.Name, saidBasket[item.Basket], saidLid[item.Lid])
	before, after := make([]string, len(item.Checks)), make([]string, len(item.Care))
	for i, c := range item.Checks {
		before[i] = c.Say
	}
	for i, c := range item.Care {
		after[i] = c.ID
	}
	if len(before) > 0 {
		s += " Before: " + strings.Join(before, "; ") + "."
	}
	if len(after) > 0 {
		s += " After: " + strings.Join(after, ", ") + "."
	}
	return paragraph(s)
}

var saidBasket = map[catalog.Basket]string{
	catalog.BasketShallow: "shallow basket",
	catalog.BasketDeep:    "deep basket",
	catalog.BasketEither:  "either basket",
}

var saidLid = map[catalog.Lid]string{
	catalog.LidMust:     "lid always: it floats",
	catalog.LidOptional: "lid or none",
	catalog.LidNone:     "no lid",
}

// paragraph is s as lines of a sheet.
func paragraph(s string) []string {
	t := text{paper: true}
	t.say(s)
	return t.lines()
}
