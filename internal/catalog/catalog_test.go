package catalog_test

import (
	"errors"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"bathside/assets"
	"bathside/internal/catalog"
	"bathside/internal/units"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

func load(t *testing.T) *catalog.Catalog {
	t.Helper()
	c, err := catalog.Load(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Minutes at working temperature, baskets and lids of the trade.
// Common practice, no source: mask 3 to 5 min, helmet about 5, cylinder about
// 10, harness pack 10 to 15; helmets in a deep basket; helmets and cylinders
// float and are always lidded; masks sink, either basket, lid optional; axes
// and the like sink, no lid.
func TestItemsFollowThePractice(t *testing.T) {
	type practice struct {
		Least, Most float64
		Floats      bool
		Lid         catalog.Lid
		Basket      catalog.Basket
	}
	c := load(t)
	for id, want := range map[string]practice{
		"mask":     {3, 5, false, catalog.LidOptional, catalog.BasketEither},
		"helmet":   {4, 7, true, catalog.LidMust, catalog.BasketDeep},
		"cylinder": {8, 12, true, catalog.LidMust, catalog.BasketDeep},
		"pack":     {10, 15, false, catalog.LidOptional, catalog.BasketDeep},
		"tool":     {5, 15, false, catalog.LidNone, catalog.BasketEither},
		"axe":      {5, 15, false, catalog.LidNone, catalog.BasketEither},
	} {
		t.Run(id, func(t *testing.T) {
			item, err := c.Item(id)
			if err != nil {
				t.Fatal(err)
			}
			got := practice{item.Minutes.Light, item.Minutes.Heavy, item.Floats, item.Lid, item.Basket}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Error("(-want +got)", diff)
			}
		})
	}
	for id, about := range map[string]float64{"helmet": 5, "cylinder": 10} {
		if item, err := c.Item(id); err != nil || item.Minutes.Normal != about {
			t.Errorf("%s: got %v min, %v, want about %v", id, item.Minutes.Normal, err, about)
		}
	}
}

// Nothing ships in a bath of 130 F, the top of the working band, longer than
// the 15 to 20 min at which general ultrasonic manuals end (second-hand).
func TestNoItemIsWashedForLong(t *testing.T) {
	for _, item := range load(t).Items {
		if item.Minutes.Longest > 20 {
			t.Errorf("%s: longest is %v min, want 20 at most", item.ID, item.Minutes.Longest)
		}
	}
}

func TestLimits(t *testing.T) {
	c := load(t)
	tests := []struct {
		name    string
		item    string
		printed string
		celsius float64 // what the source means
		source  string
	}{
		// 29 CFR 1910.134 App. B-2 prints 43 deg. C (110 deg. F).
		{"mask", "mask", "110 F", 43.33, "29 CFR 1910.134 App. B-2"},
		// CGA P-1, by a summary (second-hand): 125 F, 51.7 C.
		{"cylinder", "cylinder", "125 F", 51.67, "CGA P-1"},
		// NFPA 1851, by a public summary of its 2014 edition (second-hand): 105 F,
		// stated with 40 C; 40.6 C by the scales.
		{"helmet soft parts", "soft-parts", "105 F", 40.56, "NFPA 1851"},
		// Public tables: polycarbonate in water to about 60 C (second-hand).
		{"helmet shell", "helmet", "60 C", 60, "polycarbonate"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			item, err := c.Item(tt.item)
			if err != nil {
				t.Fatal(err)
			}
			got := item.Limit
			if got.Printed != tt.printed || !strings.Contains(got.Source, tt.source) {
				t.Errorf("got %q by %q, want %q by %q", got.Printed, got.Source, tt.printed, tt.source)
			}
			if !cmp.Equal(float64(got.At), tt.celsius, cmpopts.EquateApprox(0, 0.05)) {
				t.Errorf("got %v °C, want %v", got.At, tt.celsius)
			}
		})
	}
}

func TestLimitHottest(t *testing.T) {
	// 29 CFR 1910.134 App. B-2 prints both 43 °C and 110 °F; 43 °C is 109.4 °F
	// by the definition of the scales. Both must pass, and nothing above.
	// A cylinder's 125 F is 51.67 °C: 124 °F passes, 54 °C does not.
	mask := catalog.Limit{At: units.Fahrenheit(110), Printed: "110 F"}
	cylinder := catalog.Limit{At: units.Fahrenheit(125), Printed: "125 F"}
	if f := units.Temperature(43).F(); !cmp.Equal(f, 109.4, cmpopts.EquateApprox(0, 1e-9)) {
		t.Errorf("43 °C: got %v °F, want 109.4", f)
	}
	tests := []struct {
		name  string
		limit catalog.Limit
		bath  units.Temperature
		pass  bool
	}{
		{"43 °C", mask, 43, true},
		{"110 °F", mask, units.Fahrenheit(110), true},
		{"110.1 °F", mask, units.Fahrenheit(110.1), false},
		{"cylinder at the usual set point", cylinder, 50, true},
		{"cylinder at 124 °F", cylinder, units.Fahrenheit(124), true},
		{"cylinder at 51.6 °C", cylinder, 51.6, false},
		{"cylinder at 54 °C", cylinder, 54, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.bath <= tt.limit.Hottest(); got != tt.pass {
				t.Errorf("bath %v, hottest %v: got pass %v, want %v", tt.bath, tt.limit.Hottest(), got, tt.pass)
			}
		})
	}
}

// Four cylinders under a lid push about 43 L: common practice, no source.
func TestFourCylindersPushTheirVolume(t *testing.T) {
	item, err := load(t).Item("cylinder")
	if err != nil {
		t.Fatal(err)
	}
	if got := 4 * float64(item.Displaces); got < 42 || got > 44 {
		t.Errorf("got %v L, want about 43", got)
	}
}

// What stays out unless it is so, by the trade's ruling: common practice.
func TestChecksKeepOut(t *testing.T) {
	c := load(t)
	for id, want := range map[string]string{
		"light":  "Not in the bath: a light that is open or not marked immersion-proof. Do this: ",
		"pack":   "Not in the bath: a power unit, radio or alarm module on a pack. Do this: ",
		"helmet": "Not in the bath: a helmet with its leather front piece on. Do this: take the front piece off, then the helmet may go.",
	} {
		t.Run(id, func(t *testing.T) {
			item, err := c.Item(id)
			if err != nil {
				t.Fatal(err)
			}
			var said []string
			for _, check := range item.Checks {
				said = append(said, check.Refusal())
			}
			if !strings.Contains(strings.Join(said, "\n"), want) {
				t.Errorf("got %q, want one with %q", said, want)
			}
		})
	}
}

// The helmet's soft parts come off first of all: they are held to 105 F.
func TestHelmetMeansTheShell(t *testing.T) {
	item, err := load(t).Item("helmet")
	if err != nil {
		t.Fatal(err)
	}
	if first := item.Checks[0].Say; !strings.HasPrefix(first, "shell only") {
		t.Errorf("first check: got %q, want the soft parts off", first)
	}
}

// 29 CFR 1910.134 App. B-2: wash, rinse, disinfect 2 minutes, rinse, dry,
// reassemble, test. Inspection stands before reassembly.
func TestMaskCareFollowsTheRule(t *testing.T) {
	item, err := load(t).Item("mask")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, step := range item.Care {
		got = append(got, step.ID)
	}
	want := []string{"rinse", "disinfect", "rinse", "dry", "inspect", "refit", "test"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error("(-want +got)", diff)
	}
}

// 29 CFR 1910.134 App. B-2: rinse at 43 C (110 F) at most; where the cleaner
// does not disinfect, two minutes in 50 ppm of chlorine or iodine.
func TestMaskIsRinsedAndDisinfectedByTheRule(t *testing.T) {
	const rule = "29 CFR 1910.134 App. B-2"
	item, err := load(t).Item("mask")
	if err != nil {
		t.Fatal(err)
	}
	for _, step := range item.Care {
		switch step.ID {
		case "rinse":
			if step.Limit.Whole() != 43 || step.Limit.Printed != "110 F" || step.Limit.Source != rule {
				t.Errorf("rinse: got %+v, want 43 °C, printed 110 F, by %s", step.Limit, rule)
			}
		case "disinfect":
			if step.Least.Duration() < 120*time.Second || step.PPM < 50 || step.Source != rule {
				t.Errorf("disinfect: got %v in %v ppm by %q, want 120 s at least in 50 ppm by %s", step.Least.Duration(), step.PPM, step.Source, rule)
			}
		}
	}
}

// WAC 296-307-61015: a cylinder is charged again when it has fallen to 90 % of
// its rated pressure, 4,050 of 4,500 psi.
func TestCylinderIsChargedBelowNinetyPercent(t *testing.T) {
	item, err := load(t).Item("cylinder")
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(item.Care, func(s catalog.Step) bool { return s.ID == "inspect" })
	if i < 0 {
		t.Fatal("a cylinder is not inspected after a wash")
	}
	step := item.Care[i]
	m := regexp.MustCompile(`charge it below (\d+) % of full`).FindStringSubmatch(step.Say)
	if m == nil || step.Source != "WAC 296-307-61015" {
		t.Fatalf("got %q by %q, want the share at which it is charged", step.Say, step.Source)
	}
	if percent, err := strconv.Atoi(m[1]); err != nil || 4500*percent/100 != 4050 {
		t.Errorf("got %s %% of 4,500 psi, want 4,050 psi", m[1])
	}
}

// The list of the plan for this program, and that each has what it needs to be
// looked up; what a table must have to be read at all is not asked again.
func TestEveryTypeOfThePlanIsThere(t *testing.T) {
	c := load(t)
	for _, name := range []string{
		"mask", "harness pack", "cylinder", "helmet shell", "helmet soft parts", "hand tool", "axe", "nozzle",
		"coupling", "hand light", "rope hardware", "irons", "gas key", "fitting",
	} {
		item, err := c.Item(name)
		if err != nil {
			t.Error(err)
			continue
		}
		if len(item.Checks) == 0 || len(item.Care) < 2 {
			t.Errorf("%s: got %d checks, %d steps of care, want one and two at least", name, len(item.Checks), len(item.Care))
		}
	}
	for _, name := range []string{"regulator body", "radio", "hose", "soft goods"} {
		if _, err := c.Item(name); !errors.As(err, new(*catalog.ExcludedError)) {
			t.Errorf("%s: got %v, want that it never goes in", name, err)
		}
	}
}

// What names a rule says whose; what has none says so.
func TestEveryNumberHasItsSource(t *testing.T) {
	honest := regexp.MustCompile(`CFR|NFPA|CGA|second-hand|common practice, no source|our choice, no source|from memory|by a summary`)
	c := load(t)
	check := func(what, source string) {
		if !honest.MatchString(source) {
			t.Errorf("%s: %q names no source and does not say that there is none", what, source)
		}
	}
	for _, item := range c.Items {
		check(item.ID+" minutes", item.Minutes.Source)
		check(item.ID+" limit", item.Limit.Source)
		for _, step := range item.Care {
			if step.Least > 0 || step.PPM > 0 || step.Limit.Printed != "" {
				check(item.ID+" "+step.ID, step.Source)
			}
		}
	}
	for _, out := range c.Excluded {
		check(out.ID, out.Source)
	}
}

func TestDetergentsDiffer(t *testing.T) {
	c := load(t)
	families := map[string]bool{}
	for _, soap := range c.Detergents {
		families[soap.Family] = true
		if soap.Ratio == 30 {
			t.Errorf("%s: 30:1 stands in tests only", soap.ID)
		}
	}
	if !families["unknown"] || len(families) < 2 {
		t.Errorf("families %v: want a known one and an unknown one", families)
	}
}

func TestLoadWithoutFiles(t *testing.T) {
	_, err := catalog.Load(fstest.MapFS{})
	var mistake *catalog.MistakeError
	if err == nil || errors.As(err, &mistake) || !strings.Contains(err.Error(), "items.toml") {
		t.Errorf("got %v, want that items.toml is not there", err)
	}
}
