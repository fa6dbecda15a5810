package units

import "math"

// The units of every kind. Sizes are the constants of convert.go.

var (
	gallon = &unit{name: "gal", also: []string{"gals", "gallon", "gallons", "us gal", "us gallon", "us gallons"}, size: litresPerGallon}
	quart  = &unit{name: "qt", also: []string{"qts", "quart", "quarts"}, size: litresPerQuart}
	pint   = &unit{name: "pt", also: []string{"pts", "pint", "pints"}, size: litresPerPint}
	flOz   = &unit{name: "fl oz", also: []string{"floz", "fl. oz", "fluid ounce", "fluid ounces"}, size: litresPerFlOz}
	litre  = &unit{name: "L", also: []string{"litre", "litres", "liter", "liters"}, size: 1}
	mL     = &unit{name: "mL", also: []string{"millilitre", "millilitres", "milliliter", "milliliters"}, size: 1, div: 1000}
)

var (
	fahrenheit = &unit{name: "°F", also: []string{"f", "° f", "deg f", "degf", "degrees f", "℉", "fahrenheit", "degrees fahrenheit"}, size: 5, div: 9, start: 32}
	celsius    = &unit{name: "°C", also: []string{"c", "° c", "deg c", "degc", "degrees c", "℃", "celsius", "degrees celsius"}, size: 1}
	kelvin     = &unit{name: "K", also: []string{"kelvin", "kelvins"}, size: 1, start: zeroCelsius}
)

// Differences share the names of the scales, not their starts.
var (
	fahrenheitDegree = &unit{name: "°F", also: fahrenheit.also, size: 5, div: 9}
	celsiusDegree    = &unit{name: "°C", also: celsius.also, size: 1}
	kelvinDegree     = &unit{name: "K", also: kelvin.also, size: 1}
)

var (
	second = &unit{name: "s", also: []string{"sec", "secs", "second", "seconds"}, size: 1}
	minute = &unit{name: "min", also: []string{"m", "mins", "minute", "minutes"}, size: 60}
	hour   = &unit{name: "h", also: []string{"hr", "hrs", "hour", "hours"}, size: 3600}
	day    = &unit{name: "d", also: []string{"day", "days"}, size: 86400}
)

var (
	pound = &unit{name: "lb", also: []string{"lbs", "pound", "pounds"}, size: kilosPerPound}
	ounce = &unit{name: "oz", also: []string{"ounce", "ounces"}, size: kilosPerOunce}
	kilo  = &unit{name: "kg", also: []string{"kgs", "kilogram", "kilograms"}, size: 1}
	gram  = &unit{name: "g", also: []string{"gram", "grams"}, size: 1, div: 1000}
)

var (
	inch  = &unit{name: "in", also: []string{"inch", "inches", `"`}, size: metresPerInch}
	foot  = &unit{name: "ft", also: []string{"foot", "feet", "'"}, size: metresPerFoot}
	metre = &unit{name: "m", also: []string{"metre", "metres", "meter", "meters"}, size: 1}
	cm    = &unit{name: "cm", also: []string{"centimetre", "centimetres", "centimeter", "centimeters"}, size: 1, div: 100}
	mm    = &unit{name: "mm", also: []string{"millimetre", "millimetres", "millimeter", "millimeters"}, size: 1, div: 1000}
)

var (
	squareFoot  = &unit{name: "ft²", also: []string{"sq ft", "square foot", "square feet"}, size: metresPerFoot * metresPerFoot}
	squareMetre = &unit{name: "m²", also: []string{"sq m", "square metre", "square metres", "square meter", "square meters"}, size: 1}
)

var (
	watt     = &unit{name: "W", also: []string{"watt", "watts"}, size: 1}
	kilowatt = &unit{name: "kW", also: []string{"kilowatt", "kilowatts"}, size: 1000}
)

var (
	gallonPerMinute     = &unit{name: "gpm", also: []string{"gal/min", "gallons per minute"}, size: litresPerGallon, div: 60}
	litrePerMinute      = &unit{name: "L/min", also: []string{"lpm", "litres per minute", "liters per minute"}, size: 1, div: 60}
	litrePerSecond      = &unit{name: "L/s", size: 1}
	cubicMetresEachHour = &unit{name: "m³/h", size: 1000, div: 3600}
)

var (
	millivolt = &unit{name: "mV", also: []string{"millivolt", "millivolts"}, size: 1}
	volt      = &unit{name: "V", also: []string{"volt", "volts"}, size: 1000}
)

// The kinds, and how each system shows them. The steps are how closely the
// trade reads the instrument: common practice, no source.
var (
	volumes = &kind{noun: "a volume", example: "64gal or 242L",
		units: []*unit{gallon, quart, pint, flOz, litre, mL},
		faces: [2]face{{gallon, 0.1, 1}, {litre, 0.1, 1}}}
	temperatures = &kind{noun: "a temperature", example: "122F or 50C", least: absoluteZero,
		units: []*unit{fahrenheit, celsius, kelvin},
		faces: [2]face{{fahrenheit, 1, -1}, {celsius, 0.5, -1}}}
	deltas = &kind{noun: "a temperature difference", example: "9F or 5C", least: math.Inf(-1),
		units: []*unit{fahrenheitDegree, celsiusDegree, kelvinDegree},
		faces: [2]face{{fahrenheitDegree, 0.1, -1}, {celsiusDegree, 0.1, -1}}}
	spans = &kind{noun: "a time", example: "30min or 1h30",
		units: []*unit{minute, second, hour, day},
		faces: [2]face{{minute, 0.1, -1}, {minute, 0.1, -1}}}
	masses = &kind{noun: "a mass", example: "28lb or 12.5kg",
		units: []*unit{pound, ounce, kilo, gram},
		faces: [2]face{{pound, 0.1, 1}, {kilo, 0.1, 1}}}
	lengths = &kind{noun: "a length", example: "18in or 45cm",
		units: []*unit{inch, foot, metre, cm, mm},
		faces: [2]face{{inch, 0.1, -1}, {cm, 0.1, -1}}}
	areas = &kind{noun: "an area", example: "5ft2 or 0.5m2",
		units: []*unit{squareFoot, squareMetre},
		faces: [2]face{{squareFoot, 0.1, 1}, {squareMetre, 0.01, 2}}}
	powers = &kind{noun: "a power", example: "6kW or 500W",
		units: []*unit{kilowatt, watt},
		faces: [2]face{{kilowatt, 0.01, -1}, {kilowatt, 0.01, -1}}}
	flows = &kind{noun: "a flow", example: "8gpm or 30L/min",
		units: []*unit{gallonPerMinute, litrePerMinute, litrePerSecond, cubicMetresEachHour},
		faces: [2]face{{gallonPerMinute, 0.1, 1}, {litrePerMinute, 0.1, 1}}}
	potentials = &kind{noun: "a potential", example: "-175mV", least: math.Inf(-1),
		units: []*unit{millivolt, volt},
		faces: [2]face{{millivolt, 0.1, 1}, {millivolt, 0.1, 1}}}
)

// kinds lists them all but differences, whose names are the temperatures'.
var kinds = []*kind{volumes, temperatures, spans, masses, lengths, areas, powers, flows, potentials}
