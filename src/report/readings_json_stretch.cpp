#include <cmath>

#include "report/readings_json_parts.hpp"
#include "report/readings_sentences.hpp"

namespace hailwright::json {

namespace {

std::string_view word_of(LogScatter scatter) {
  switch (scatter) {
  case LogScatter::none:
    return "none";
  case LogScatter::effective:
    return "by effective number";
  case LogScatter::one_reading:
    return "as one reading";
  case LogScatter::not_known:
    break;
  }
  return "not known";
}

/// JSON has no infinity: null with a word.
Json degrees(double value) {
  if (std::isinf(value)) return {{"value", nullptr}, {"word", "unlimited"}};
  return {{"value", finite(value)}};
}

Json sums(const ColumnSums& s, const char* unit) {
  if (s.count == 0) return nullptr;
  return {{"rows", s.count},
          {"mean", number_or_null(s.mean)},
          {"least", number_or_null(s.least)},
          {"most", number_or_null(s.most)},
          {"unit", unit}};
}

Json series(const SeriesMean& s, const char* unit) {
  const auto u = s.standard_u();
  return {{"readings", s.count},
          {"mean", number_or_null(s.mean)},
          {"standard_deviation", number_or_null(s.sd)},
          {"lag1", number_or_null(s.lag1)},
          {"independent_readings", number_or_null(s.effective)},
          {"standard_uncertainty_of_mean", u ? Json(finite(*u)) : Json(nullptr)},
          {"unit", unit},
          {"sentence", worth_sentence(s)}};
}

Json series_or_null(const std::optional<SeriesMean>& s, const char* unit) {
  return s ? series(*s, unit) : Json(nullptr);
}

Json gaps(const ReadingsAnswer& a, const LogStretch& s) {
  Json longest = Json::array();
  for (const LogGap& g : s.longest_gaps) {
    longest.push_back({{"from", iso_time(g.from_us, a.stated.zone)},
                       {"to", iso_time(g.to_us, a.stated.zone)},
                       {"time", amount(g.seconds(), "s")},
                       {"file", g.file < a.files.size() ? Json(a.files[g.file]) : Json(nullptr)},
                       {"line", g.line}});
  }
  return {{"count", s.gaps},
          {"time", amount(s.in_gaps_s, "s")},
          {"longest", std::move(longest)},
          {"sentence", gaps_sentence(s, a.question.rules.longest_gap)}};
}

Json steady(const std::optional<SteadyTally>& t) {
  if (!t) return nullptr;
  return {{"kept", t->rows_kept},
          {"irradiance_changed", t->rows_irradiance},
          {"irradiance_drifted", t->rows_ramp},
          {"temperature_changed", t->rows_temperature},
          {"broken", t->rows_broken},
          {"sentence", removed_sentence(*t)}};
}

Json counter(const LogStretch& s, const StretchNumbers& n) {
  if (!s.counter) return nullptr;
  const CounterReading& c = *s.counter;
  Json j{{"counted", amount(c.counted.si(), "J")},
         {"in_gaps", amount(c.in_gaps.si(), "J")},
         {"resets", c.resets},
         {"steps_back", c.steps_back},
         {"stepped_back", amount(c.stepped_back.si(), "J")},
         {"wraps", c.wraps},
         {"rows", c.rows},
         {"step", c.step_j > 0.0 ? amount(c.step_j, "J") : Json(nullptr)}};
  j["less_integral"] = nullptr;
  if (n.counter_less_integral) {
    j["less_integral"] = amount(n.counter_less_integral->value.si(), "1");
    j["less_integral"]["standard_uncertainty"] = finite(n.counter_less_integral->standard_u.si());
  }
  j["sentence"] = counter_sentence(s, n);
  return j;
}

Json clipping(const std::optional<LogClipping>& c, const char* whose) {
  if (!c) return nullptr;
  return {{"level", amount(c->level.si(), "W")},
          {"from", amount(c->from.si(), "W/m2")},
          {"to", amount(c->to.si(), "W/m2")},
          {"rows", c->rows},
          {"sentence", clipping_sentence(*c, whose)}};
}

Json side_by_side(const LogStretch& s, const StretchNumbers& n) {
  if (!s.beside || !n.ratio) return nullptr;
  return {{"windows", series(s.beside->windows, "1")},
          {"first", amount(s.beside->first.si(), "J")},
          {"second", amount(s.beside->second.si(), "J")},
          {"change_per_second_of_offset", amount(s.beside->slope_per_s, "1/s")},
          {"sentence", ratio_sentence(*n.ratio, *s.beside)}};
}

void add_columns(Json& j, const LogStretch& s) {
  j["power"] = sums(s.power, "W");
  j["irradiance"] = sums(s.irradiance, "W/m2");
  j["temperature"] = sums(s.temperature, "K");
  j["power_beside"] = sums(s.power_beside, "W");
  j["temperature_beside"] = sums(s.temperature_beside, "K");
}

}  // namespace

Json log_budget(const std::vector<BudgetRow>& rows) {
  Json list = Json::array();
  for (const BudgetRow& row : rows) {
    const BudgetInput& i = row.input;
    list.push_back({{"id", i.id},
                    {"label", i.label},
                    {"evaluation", i.evaluation == Evaluation::type_a ? "A" : "B"},
                    {"standard_uncertainty", finite(i.standard_u)},
                    {"sensitivity", finite(row.sensitivity)},
                    {"contribution", finite(row.contribution())},
                    {"degrees_of_freedom", degrees(i.degrees_of_freedom)}});
  }
  return list;
}

template <class Q>
Json log_number(const std::optional<LogNumber<Q>>& n, const char* unit) {
  if (!n) return nullptr;
  Json j = amount(n->estimate.value.si(), unit);
  j["standard_uncertainty"] = finite(n->estimate.standard_u.si());
  j["degrees_of_freedom"] = degrees(n->estimate.degrees_of_freedom);
  j["half_width_95"] = finite(n->half_width().si());
  j["scatter"] = word_of(n->scatter);
  j["budget"] = log_budget(n->budget);
  return j;
}
template Json log_number(const std::optional<LogNumber<Energy>>& n, const char* unit);
template Json log_number(const std::optional<LogNumber<Power>>& n, const char* unit);
template Json log_number(const std::optional<LogNumber<Ratio>>& n, const char* unit);

Json amount(double si, const char* unit) {
  return {{"value", finite(si)}, {"unit", unit}};
}

Json number_or_null(double value) {
  return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json words_or_none(std::string_view words) {
  return words.empty() ? Json(nullptr) : Json(words);
}

Json stretch(const ReadingsAnswer& a, const LogStretch& s, const StretchNumbers& n) {
  const bool any = s.rows > 0;
  Json j{{"name", words_or_none(s.name)}, {"rows", s.rows}};
  j["from"] = any ? Json(iso_time(s.from_us, a.stated.zone)) : Json(nullptr);
  j["to"] = any ? Json(iso_time(s.to_us, a.stated.zone)) : Json(nullptr);
  j["bridged"] = amount(s.bridged_s, "s");
  j["gaps"] = gaps(a, s);
  j["energy"] = log_number(n.energy, "J");
  j["energy_beside"] = s.power_beside.count > 0 ? amount(s.energy_beside.si(), "J") : Json(nullptr);
  j["mean_power"] = log_number(n.mean_power, "W");
  j["normalised"] = log_number(n.normalised, "W");
  j["normalised_beside"] = log_number(n.normalised_beside, "W");
  j["ratio"] = log_number(n.ratio, "1");
  add_columns(j, s);
  j["power_series"] = series(s.power_series, "W");
  j["normalised_series"] = series_or_null(s.normalised, "W");
  j["normalised_beside_series"] = series_or_null(s.normalised_beside, "W");
  j["steady"] = steady(s.steady);
  j["counter"] = counter(s, n);
  j["clipping"] = clipping(s.clipping, "");
  j["clipping_beside"] = clipping(s.clipping_beside, " of the second panel");
  j["side_by_side"] = side_by_side(s, n);
  return j;
}

}  // namespace hailwright::json

namespace hailwright {

std::optional<std::string> file_of(const ReadingsAnswer& answer, const SourceSpan& where) {
  const std::uint32_t first = answer.question.first_file;
  if (where.file < first || where.file - first >= answer.files.size()) return std::nullopt;
  if (where.file == 0) return std::nullopt;
  return answer.files[where.file - first];
}

}  // namespace hailwright
