#pragma once

#include "hailwright/report/compose_readings.hpp"

namespace hailwright::testing {

/// 2026-06-14T06:00:00+02:00.
inline constexpr std::int64_t morning_us = 1'781'409'600'000'000;

/// What a made-up log of a day came to: ten hours at 1 Hz with clouds, a gap from 12:30 to 12:40,
/// two stretches "before 1" and "before 2", a counter with a reset, load that clips from 900 W/m2.
LogFindings day_findings();

/// "day.csv" by hand: `day_findings` of a panel with a coefficient, instruments by default.
ReadingsAnswer day_answer();
/// Two panels of which the second gives 0.981 of the first, clocks 7 s apart.
ReadingsAnswer pair_answer();
/// Gives the answer its numbers again, after its findings or its instruments were changed.
void weigh_again(ReadingsAnswer& answer, const Tools& tools);

/// A panel with a coefficient of its data sheet: -0.35 %/K.
Panel log_panel();

/// A series of so many readings.
SeriesMean series_of(std::int64_t count, double mean, double sd, double lag1, double effective);

}  // namespace hailwright::testing
