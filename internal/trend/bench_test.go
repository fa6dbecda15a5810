package trend

import "testing"

// BenchmarkForecast is fit and forecast of 40 readings: the goal is 300 µs.
func BenchmarkForecast(b *testing.B) {
	in := steady(40)
	b.ReportAllocs()
	for b.Loop() {
		f, err := in.Fit()
		if err != nil {
			b.Fatal(err)
		}
		f.Forecast()
	}
}

// BenchmarkBathChart charts 40 readings, with a fit for each.
func BenchmarkBathChart(b *testing.B) {
	in := steady(40)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := in.BathChart(); err != nil {
			b.Fatal(err)
		}
	}
}
