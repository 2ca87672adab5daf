#include "support/log_answers.hpp"

#include <cmath>
#include <limits>

namespace hailwright::testing {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double hours = 10.0;
constexpr int points = 600;  // a minute each

double sun_at(double hour) {
  const double clear = 1000.0 * std::sin(pi * (hour + 1.0) / (hours + 2.0));
  const double cloud = std::sin(hour * 7.3) + std::sin(hour * 17.9);
  return hour > 5.0 && cloud > 0.7 ? 0.45 * clear : clear;
}

LogTrace::Point point_at(int minute) {
  const double hour = minute / 60.0;
  LogTrace::Point p;
  if (minute >= 390 && minute < 400) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    return {0, nan, nan, nan, nan, nan};
  }
  const double sun = sun_at(hour);
  p.rows = 60;
  p.irradiance_mean = std::round(sun * 10.0) / 10.0;
  const double watts = std::min(0.09 * sun, 81.0);
  p.power_mean = watts;
  p.power_least = std::round(watts * 98.0) / 100.0;
  p.power_most = std::round(watts * 101.0) / 100.0;
  p.beside_mean = std::numeric_limits<double>::quiet_NaN();
  return p;
}

LogStretch stretch(const char* name, int from_min, int to_min, double watts) {
  LogStretch s;
  s.name = name;
  s.from_us = morning_us + from_min * 60'000'000LL;
  s.to_us = morning_us + to_min * 60'000'000LL;
  s.bridged_s = (to_min - from_min) * 60.0;
  s.rows = (to_min - from_min) * 60 + 1;
  s.energy = Energy::from_si(watts * s.bridged_s);
  s.mean_power = Power::from_si(watts);
  s.power = {s.rows, watts, watts * 0.99, watts * 1.01};
  s.irradiance = {s.rows, watts / 0.09, watts / 0.09 * 0.99, watts / 0.09 * 1.01};
  s.temperature = {s.rows, 318.15, 316.95, 319.25};
  s.power_series = series_of(s.rows, watts, 0.3, 0.95, 15.6);
  s.normalised = series_of(s.rows, 96.2, 0.35, 0.95, 15.6);
  s.steady = SteadyTally{s.rows - 60, 0, 60, 0, 0};
  return s;
}

}  // namespace

SeriesMean series_of(std::int64_t count, double mean, double sd, double lag1, double effective) {
  SeriesMean s;
  s.count = count;
  s.mean = mean;
  s.sd = sd;
  s.lag1 = lag1;
  s.effective = effective;
  return s;
}

LogFindings day_findings() {
  LogFindings f;
  f.usual_step_s = 1.0;
  f.trace.from_us = morning_us;
  f.trace.step_s = 60.0;
  for (int m = 0; m < points; ++m)
    f.trace.points.push_back(point_at(m));
  f.whole = stretch("", 0, 600, 62.5);
  f.whole.rows = 35401;
  f.whole.bridged_s = 35400.0;
  f.whole.energy = Energy::from_si(62.5 * 35400.0);
  f.whole.gaps = 1;
  f.whole.in_gaps_s = 600.0;
  f.whole.longest_gaps = {
      {morning_us + 390 * 60'000'000LL, morning_us + 400 * 60'000'000LL, 0, 23403}};
  f.whole.power = {35401, 62.5, 20.75, 81.0};
  f.whole.irradiance = {35401, 720.3, 116.6, 1000.0};
  f.whole.temperature = {35401, 314.4, 299.15, 331.2};
  f.whole.steady = SteadyTally{31200, 2940, 900, 240, 121};
  f.whole.power_series = series_of(31200, 63.1, 17.4, 0.999, 15.7);
  f.whole.normalised = series_of(30900, 95.1, 1.4, 0.97, 470.0);
  CounterReading counter;
  counter.counted = Energy::from_si(62.1 * 35400.0 + 9000.0);
  counter.resets = 1;
  counter.rows = 35401;
  counter.step_j = 360.0;
  counter.across_gaps = true;
  counter.in_gaps = Energy::from_si(9000.0);
  f.whole.counter = counter;
  LogClipping clip;
  clip.level = Power::from_si(81.0);
  clip.from = Irradiance::from_si(900.0);
  clip.to = Irradiance::from_si(1000.0);
  clip.rows = 6120;
  f.whole.clipping = clip;
  f.stretches = {stretch("before 1", 120, 132, 63.64), stretch("before 2", 420, 431, 79.2)};
  return f;
}

Panel log_panel() {
  Panel panel;
  panel.name = "Rigid A";
  panel.power_coefficient = TemperatureCoefficient::from_si(-0.0035);
  return panel;
}

void weigh_again(ReadingsAnswer& answer, const Tools& tools) {
  const Panel panel = log_panel();
  const LogInstruments known{&tools, &panel, &panel, std::nullopt};
  answer.question.rules.normalise = log_normalisation(known);
  answer.results = weigh_log(answer.findings, known, answer.offset);
}

ReadingsAnswer day_answer() {
  ReadingsAnswer a;
  a.files = {"day.csv"};
  a.stated.zone = "+02:00";
  a.shape.headers = {"time", "P [W]", "G [W/m2]", "T [degC]", "E [Wh]"};
  a.shape.used = {{LogRole::time, 0, {}, "time"},
                  {LogRole::power, 1, *find_unit("W", Measure::power), "P [W]"},
                  {LogRole::irradiance, 2, *find_unit("W/m2", Measure::irradiance), "G [W/m2]"},
                  {LogRole::temperature, 3, *find_unit("degC", Measure::temperature), "T [degC]"},
                  {LogRole::energy, 4, *find_unit("Wh", Measure::energy), "E [Wh]"}};
  a.tally.bytes = 1'575'345;
  a.tally.lines = 35405;
  a.tally.rows = 35401;
  a.tally.unreadable = 2;
  a.tally.out_of_order = 1;
  a.tally.by_code = {{"L11", 2}, {"L14", 1}};
  a.question.first_file = 1;
  a.question.rules.longest_gap = Time::from_si(10.0);
  a.question.rules.steady = SteadyRule{};
  a.question.cut.kind = LogCut::Kind::plateaus;
  a.place = LogPlace::before;
  a.findings = day_findings();
  a.notes.warning("L11", {1, 812, 21, 3}, "\"ERR\" is no number");
  weigh_again(a, {});
  return a;
}

ReadingsAnswer pair_answer() {
  ReadingsAnswer a = day_answer();
  a.files_beside = {"second.csv"};
  a.tally_beside = a.tally;
  a.tally_beside->unreadable = a.tally_beside->out_of_order = 0;
  for (LogTrace::Point& p : a.findings.trace.points) {
    if (p.rows > 0) p.beside_mean = 0.981 * p.power_mean;
  }
  LogStretch& whole = a.findings.whole;
  whole.power_beside = {35390, 61.3, 20.4, 79.4};
  whole.temperature_beside = whole.temperature;
  whole.energy_beside = whole.energy * 0.981;
  RatioMean ratio;
  ratio.windows = series_of(588, std::log(0.981), 0.004, 0.2, 392.0);
  ratio.ratio = 0.981;
  ratio.first = whole.energy;
  ratio.second = whole.energy_beside;
  ratio.slope_per_s = 2e-6;
  whole.beside = ratio;
  ClockOffset offset;
  offset.offset = Time::from_si(7.02);
  offset.standard_u = Time::from_si(0.12);
  offset.correlation = 0.968;
  offset.next_best = 0.31;
  offset.searched = Time::from_si(60.0);
  a.offset = offset;
  a.offset_used = *offset.offset;
  weigh_again(a, {});
  return a;
}

}  // namespace hailwright::testing
