package load

import (
	"fmt"
	"strings"

	"bathside/internal/catalog"
)

// Soil is how dirty a load is, as seen by whoever loads it.
type Soil string

// The three soil words.
const (
	Light  Soil = "light" // regular upkeep
	Normal Soil = "normal"
	Heavy  Soil = "heavy"
)

// ParseSoil reads one of the three words in either case.
func ParseSoil(s string) (Soil, error) {
	soil := Soil(strings.ToLower(strings.TrimSpace(s)))
	if _, err := soil.minutes(catalog.Minutes{}); err != nil {
		return "", fmt.Errorf("soil %.32q is not known; write light, normal or heavy", s)
	}
	return soil, nil
}

// minutes returns those of m for the soil.
func (s Soil) minutes(m catalog.Minutes) (float64, error) {
	switch s {
	case Light:
		return m.Light, nil
	case Normal:
		return m.Normal, nil
	case Heavy:
		return m.Heavy, nil
	}
	return 0, fmt.Errorf("soil %.32q is not known; write light, normal or heavy", string(s))
}
