package advise_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// How advice can fail those who go by it.
const (
	wrong   = "wrong"   // it says the opposite of what is so
	late    = "late"    // it comes when the harm is done
	missing = "missing" // it is not said at all
	misread = "misread" // it is right, and taken for something else
)

// hazard is one way in which advice can do harm: what then happens, the rule
// that holds it and where that is kept, and the tests that hold the rule.
type hazard struct {
	how, harm, rule string
	kept            string // the function
	tests           []string
}

// hazards is the table of DEVELOPERS.md.
var hazards = []hazard{
	{wrong, "a contaminated bath is mended with soap, and gear goes through it", "a contaminated bath has no top-up: no figure, no action, no signature", "contamination",
		[]string{"TestNoTopUpOfAContaminatedBath", "TestNoTopUpIsSignedForAContaminatedBath", "TestAContaminatedBathShowsNoTopUp"}},
	{wrong, "a spent bath reads OK because a failed meter says so", "what a failed meter read is kept, and neither states nor signs anything", "standing",
		[]string{"TestAFailedMeterSignsNothing", "TestAFailedMeterIsKeptAndNotTrusted", "TestAFirstReadingByAFailedMeter"}},
	{wrong, "a healthy bath is drained because a cold reading is compared with a hot one", "beyond 3 °C a reading is restated with its uncertainty, or not compared", "compare",
		[]string{"TestAColdFirstReadingDoesNotCondemnAHotBath", "TestARestatedReadingIsWhatTheTableSays", "TestBlockedOnlyWhereWorthless"}},
	{wrong, "a spent bath passes because it reads higher: soap nobody logged, or a slip of the key", "a rise for no logged reason is asked about, and turns nothing", "rise",
		[]string{"TestARiseWithoutSoapIsNotTrusted", "TestRiseWithoutSoapIsAsked"}},
	{wrong, "one odd reading drains a good bath", "one reading far out of line decides nothing before a second", "oddReading",
		[]string{"TestOneWildReadingDoesNotDecide", "TestOddReadingDecidesNothing"}},
	{wrong, "what was crossed out still counts", "the state is that of a log book that never had the line", "effective",
		[]string{"TestNothingCrossedOutCounts", "TestManyLinesCanBeCrossedOut", "TestACrossedOutCheckIsGone"}},
	{wrong, "gear is washed hotter or longer than its maker allows", "a start is gated on the hottest that the bath will be and the shortest time, and a reason passes soft gates only", "gateLimit",
		[]string{"TestNoWashStartsPastALimit", "TestGateLimit", "TestGateLongest", "TestAReasonPassesSoftGatesOnly"}},
	{wrong, "a reason for one item lets another in that may not", "a hard gate outweighs a soft one within a load", "gatePaper",
		[]string{"TestGatePaper", "TestNoWashStartsPastALimit"}},
	{wrong, "a plan for a night puts gear beyond its limit", "a plan keeps every limit, and starts nothing by itself", "PlanWashes",
		[]string{"TestPlansAlwaysKeepTheRules", "TestPlanGoesByTheMakersPaper"}},
	{wrong, "a drain goes to the sewer that may not", "each limit on file is held against a cooled cup before saving, and the line is marked after", "LimitChecks",
		[]string{"TestDrainLimits", "TestPreviewDrain", "TestDrainIsKeptAndMarked"}},
	{wrong, "a liquid is thinned until it passes", "water after the signature marks the drain, and every refusal says not to dilute", "thinned",
		[]string{"TestThinnedToPass"}},
	{wrong, "what was in a contaminated bath leaves unasked, now or a month later", "liquid, sludge and cartridges stay held; the sewer never, another way only by a name", "foulOutside",
		[]string{"TestHeldWasteIsMarked", "TestNothingOfAContaminatedBathIsLetGo", "TestWasteIsFoundFoulLater", "TestACorrectedDrainStaysContaminated"}},
	{wrong, "the numbers of a refusal look equal, and it is taken for a fault", "two numbers that are compared print differently", "TempPair",
		[]string{"TestRefusalsNeverShowTwoEqualNumbers"}},

	{late, "a wash starts in a bath that should stand", "a red tag is first on every face and gate, and nothing is started or resumed under it", "gateTag",
		[]string{"TestATaggedBathStartsNothing", "TestATaggedBathIsOfferedNoStart", "TestARedTagSilences", "TestARedTagIsOnEveryPage"}},
	{late, "the limit is passed between two readings", "a reading is due weekly, and the limit is spoken of by the early end of its likely dates", "limitDate",
		[]string{"TestReadingDue", "TestLimitDate", "TestForecastIsAlwaysInOrder"}},
	{late, "contamination is found when the gear is back in service", "the look-back holds what was washed in it or after it, released or not, and what was kept back", "lookBack",
		[]string{"TestAContaminatedWashLooksBack", "TestALateWashIsHeldToo", "TestWasteIsFoundFoulLater"}},
	{late, "the heater runs dry", "below the low mark it is said now; near it, or reckoned near it, today", "heaterDry",
		[]string{"TestLowMark", "TestTheLowMarkInSight"}},
	{late, "the permission has lapsed on the day of the drain", "it is spoken of 60 days ahead, pressed 14 days ahead, and marked on a drain after", "permissionLapses",
		[]string{"TestPermissionLapses", "TestDrainLimits"}},
	{late, "a hot bath must go on the day it is decided", "the evening before, how long it cools, by the limit on file", "coolForDrain",
		[]string{"TestCoolForDrain", "TestCoolForDrainSaysWhoseFigure"}},
	{late, "a decision stands on a reading that was crossed out since", "it says that it has lost its ground, and asks for another", "Decided",
		[]string{"TestASignedDecisionCanLoseItsGround"}},

	{missing, "no data reads as no trouble", "what is not known is unknown, and knowing less never makes it OK", "state",
		[]string{"TestMissingDataNeverReadsAsFine", "TestNoReadingIsUnknownNotOK", "TestNothingIsPromotedToFirstReading"}},
	{missing, "a date is read into a bath without a first reading", "no first reading, no forecast, no figure for soap", "trend",
		[]string{"TestMissingDataNeverReadsAsFine", "TestNoTrendWithoutAFirstReading", "TestNoOutlook"}},
	{missing, "a wash starts in a bath that nobody measured", "a temperature stands 15 min, and none is taken from the set point", "gateMeasured",
		[]string{"TestMissingDataNeverReadsAsFine", "TestGateMeasured", "TestAnOldTemperatureIsAskedAgain"}},
	{missing, "an item nobody knows the limit of goes in", "an unknown limit is a gate, which only a gear officer passes, with a reason", "gateKnown",
		[]string{"TestGateKnown", "TestNoWashStartsPastALimit"}},
	{missing, "a drain is decided, and nobody knows where it may go", "limits are asked for from getting close on, and Decide says what is on file", "drainLimits",
		[]string{"TestDrainLimits", "TestDisposalInADecision"}},
	{missing, "a drain passes because nothing was measured", "what was not measured passes no limit", "sample",
		[]string{"TestWhatIsNotMeasuredPassesNothing", "TestDrainLimits"}},
	{missing, "held waste is forgotten", "Next asks for each of it until a line says where it went, fills later too", "heldWaste",
		[]string{"TestHeldWaste", "TestThreeWasteStreams"}},
	{missing, "a clock that is wrong hides what is due", "a line from the future is said first", "clockBehind",
		[]string{"TestClockBehind", "TestAFutureFill"}},
	{missing, "the program ends where it should warn", "any log book, sensible or not, is assessed and previewed", "PreviewBody",
		[]string{"TestAnyBookIsAssessed", "TestAnyBookReachesEveryRule", "TestPreviewBody"}},

	{misread, "a drop that may be noise is acted on, or a real one waved off", "each drop says how sure it is, in words", "DropWords",
		[]string{"TestHowSureADropIs", "TestDropWordsNeverMislead"}},
	{misread, "an estimate is taken for a measurement", "estimates say about, and one key away from what they come", "SureSay",
		[]string{"TestFiguresSayWhereTheyComeFrom", "TestTrendInWords"}},
	{misread, "washed is taken for proved clean", "a batch goes through its care, and somebody looks and signs before it is back", "careDue",
		[]string{"TestCareGoesStepByStep", "TestCareDue"}},
	{misread, "a refusal is not understood at 03:00", "each says what was read, what to do now and whom to wake", "KeptOut",
		[]string{"TestEveryRefusalReadAloud", "TestEveryRefusalHasItsThreeParts"}},
	{misread, "warm is taken for safe to touch", "the form of a drain says how soon the liquid burns, by the hotter row", "scaldSay",
		[]string{"TestScaldIsNeverPutOff", "TestPreviewDrain"}},
	{misread, "text of an imported line moves the cursor over a warning", "marks that change how a terminal draws are taken out", "Scrub",
		[]string{"TestImportedTextIsHarmless"}},
}

// TestHazardsAreHeld: each rule of the table is there, and so is each test.
func TestHazardsAreHeld(t *testing.T) {
	funcs, tests := declared(t, "..")
	hows := map[string]int{}
	harms := map[string]bool{}
	for _, h := range hazards {
		hows[h.how]++
		if h.harm == "" || h.rule == "" || harms[h.harm] {
			t.Errorf("%+v: lacks words, or stands there twice", h)
		}
		harms[h.harm] = true
		if !funcs[h.kept] {
			t.Errorf("%s: no function %s keeps its rule", h.harm, h.kept)
		}
		if len(h.tests) == 0 {
			t.Errorf("%s: no test holds it", h.harm)
		}
		for _, name := range h.tests {
			if !tests[name] {
				t.Errorf("%s: there is no %s", h.harm, name)
			}
		}
	}
	for _, how := range []string{wrong, late, missing, misread} {
		if hows[how] == 0 {
			t.Errorf("no hazard of advice that is %s", how)
		}
	}
}

// TestEveryRuleOfTheTableWouldBeMissed: a name that is nowhere is found out.
func TestEveryRuleOfTheTableWouldBeMissed(t *testing.T) {
	funcs, tests := declared(t, "..")
	if funcs["gateThatIsNowhere"] || tests["TestThatIsNowhere"] || funcs["TestHazardsAreHeld"] || !tests["TestHazardsAreHeld"] {
		t.Error("what is declared is not told from what is not")
	}
}

// declared are the functions and the tests of a tree, by their names.
func declared(t *testing.T, root string) (funcs, tests map[string]bool) {
	t.Helper()
	funcs, tests = map[string]bool{}, map[string]bool{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".go" {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		names := funcs
		if strings.HasSuffix(path, "_test.go") {
			names = tests
		}
		for _, decl := range file.Decls {
			if f, ok := decl.(*ast.FuncDecl); ok {
				names[f.Name.Name] = true
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return funcs, tests
}
