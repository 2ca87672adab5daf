#include "report/judgement_energy.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/judgement_done.hpp"
#include "report/readings_clock.hpp"
#include "report/readings_sentences.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

std::string celsius(TemperaturePoint t) {
  return in_unit(t, "degC", 0);
}

std::string not_normalised_sentence(const MeterSession& s) {
  if (!(s.energy.si() > 0.0)) return "no normalised power: the meter counted nothing";
  if (!s.sun_start)
    return "no normalised power: the irradiance at the start and at the end is not stated";
  return "no normalised power: the temperature of the back at the start and at the end is not "
         "stated";
}

std::string ends_sentence(const MeterSession& s) {
  return fmt::format(
      "for that the means of the two ends stand for the whole time (irradiance {} and {}, back {} "
      "and {}), taken to be wrong by up to half of the way between them; a noon or clouds in "
      "between can be worse than that, and are in no number here",
      in_unit(*s.sun_start, "W/m2", 0), in_unit(*s.sun_end, "W/m2", 0), celsius(*s.back_start),
      celsius(*s.back_end));
}

std::string beside_sentence(const EnergyBeside& b, const MeterSessionResult& r) {
  std::string text = fmt::format("beside it, {} gave {} over the same time", b.label,
                                 number_text(*r.energy_beside, "Wh"));
  if (!r.ratio) return text;
  return fmt::format(
      "{}, {} of it. Clouds cancel in that; the errors of the two meters do not: they "
      "are taken as independent{}",
      text, ratio_text(*r.ratio),
      b.meter ? "" : ", and the second meter as another one of the first's kind");
}

/// How much warmer the second back was, where both are known.
std::string warmer_sentence(const MeterSession& s) {
  const EnergyBeside& b = *s.beside;
  if (!s.back_start || !s.back_end || !b.back_start || !b.back_end) return {};
  const auto warmer = [](TemperaturePoint second, TemperaturePoint first) {
    const double kelvin = (second - first).si();
    if (std::abs(kelvin) < 0.05) return std::string("as warm");
    return fmt::format("{} K {}", fixed(std::abs(kelvin), 1), kelvin > 0.0 ? "warmer" : "cooler");
  };
  return fmt::format("the back of {} was {} at the start and {} at the end; the ratio is as read, "
                     "without a correction for that",
                     b.label, warmer(*b.back_start, *s.back_start),
                     warmer(*b.back_end, *s.back_end));
}

}  // namespace

std::string when_text(bool after, const std::string& date, bool hail) {
  return fmt::format("{} the {}{}{}", after ? "after" : "before", hail ? "shots" : "stresses",
                     date.empty() ? "" : ", ", date);
}

void add_assumed_lines(std::vector<std::string>& lines, const Assumptions& assumptions) {
  for (const DefaultId id : assumptions.used()) {
    const DefaultRow& row = default_row(id);
    std::string line = fmt::format("{}: {}. Write instead: {}", row.what, row.taken, row.replace);
    if (std::find(lines.begin(), lines.end(), line) == lines.end())
      lines.push_back(std::move(line));
  }
}

std::vector<std::string> meter_session_sentences(const MeterSession& s, const MeterSessionResult& r,
                                                 bool hail) {
  std::vector<std::string> lines{fmt::format(
      "{}: {} in {}, on average {}", when_text(s.after, s.date, hail), number_text(r.energy, "Wh"),
      duration_text(s.lasting.si()), number_text(r.mean_power, "W"))};
  if (r.normalised) {
    lines.push_back(fmt::format("at 1000 W/m2 and 25 degC {}", number_text(*r.normalised, "W")));
    lines.push_back(ends_sentence(s));
  } else {
    lines.push_back(not_normalised_sentence(s));
  }
  if (!s.beside) return lines;
  lines.push_back(beside_sentence(*s.beside, r));
  if (std::string warmer = warmer_sentence(s); !warmer.empty()) lines.push_back(std::move(warmer));
  return lines;
}

Facts energy_facts(const Test& test, const Assessment& assessment, const SourceSet& sources) {
  Facts facts;
  std::vector<std::string> assumed;
  for (const MeterSessionResult& r : assessment.energy) {
    const MeterSession& session = test.record.energy.at(r.session);
    std::vector<std::string> lines =
        meter_session_sentences(session, r, !test.protocol.series.empty());
    lines.front() += place_text(sources, session.origin);
    add_fact(facts, "session " + session.name, std::move(lines));
    add_assumed_lines(assumed, r.assumptions);
  }
  add_fact(facts, "assumed for them", std::move(assumed));
  return facts;
}

}  // namespace hailwright
