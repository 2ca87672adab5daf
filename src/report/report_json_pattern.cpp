#include "report/pattern_sentences.hpp"
#include "report/report_json_parts.hpp"

namespace hailwright::json {

namespace {

constexpr std::string_view pattern_method = "method-loss-pattern";

const char* pattern_word(PatternWord pattern_word) {
  switch (pattern_word) {
  case PatternWord::named:
    return "named";
  case PatternWord::alike:
    return "alike";
  case PatternWord::nothing_resolvable:
    return "nothing resolvable";
  case PatternWord::none_fits:
    return "none fits";
  }
  return "";
}

const char* unit_of_size(CurvePattern pattern) {
  switch (pattern) {
  case CurvePattern::substring_gone:
    return "V";
  case CurvePattern::series_resistance:
    return "ohm";
  case CurvePattern::shunt:
    return "1/ohm";
  case CurvePattern::part_of_one_cell:
  case CurvePattern::all_cells_less:
    return "1";
  }
  return "1";
}

Json figures(const std::vector<CurveFigure>& all) {
  Json names = Json::array();
  for (const CurveFigure f : all)
    names.push_back(figure_name(f));
  return names;
}

Json patterns(const std::vector<CurvePattern>& all) {
  Json names = Json::array();
  for (const CurvePattern p : all)
    names.push_back(pattern_name(p));
  return names;
}

/// A number for each of the four figures, by its name.
Json by_figure(const CurveVector& numbers) {
  Json j = Json::object();
  for (std::size_t k = 0; k < curve_figures; ++k)
    j[figure_name(static_cast<CurveFigure>(k))] = numbers[k];
  return j;
}

Json interval(Ratio low, Ratio high, Ledger& ledger) {
  return {{"low", ledger.computed(low, {pattern_method})},
          {"high", ledger.computed(high, {pattern_method})}};
}

Json change(const CurveChange& c, Ledger& ledger) {
  const std::string unit = figure_unit(c.figure);
  return {{"figure", figure_name(c.figure)},
          {"readings_before", c.before},
          {"readings_after", c.after},
          {"before", ledger.computed(c.mean_before, unit, pattern_method)},
          {"after", ledger.computed(c.mean_after, unit, pattern_method)},
          {"log_change", ledger.estimated(c.log_change, c.standard_u, c.degrees_of_freedom, "1",
                                          {pattern_method})},
          {"interval", interval(c.low, c.high, ledger)},
          {"sentence", change_sentence(c)}};
}

Json fit(const PatternFit& f, const LossPattern& pattern, Ledger& ledger) {
  return {
      {"pattern", f.pattern ? Json(pattern_name(*f.pattern)) : Json(nullptr)},
      {"size", f.pattern ? ledger.computed(f.size, unit_of_size(*f.pattern), pattern_method)
                         : Json(nullptr)},
      {"log_times_better_than_no_change",
       ledger.computed(f.log_likelihood - pattern.no_change().log_likelihood, "1", pattern_method)},
      {"misfit", ledger.computed(f.misfit, "1", pattern_method)},
      {"fits", f.fits},
      {"predicted_log_changes", by_figure(f.predicted)}};
}

Json power(const LossPattern& pattern, const Assessment& a, Ledger& ledger) {
  if (!pattern.power) return nullptr;
  const CurvePower& p = *pattern.power;
  const auto agrees = a.power.empty() ? std::nullopt : agrees_with_power(pattern, a.power.back());
  return {{"log_change", ledger.computed(p.log_change, "1", pattern_method)},
          {"standard_uncertainty", ledger.computed(p.standard_u, "1", pattern_method)},
          {"interval", interval(p.low, p.high, ledger)},
          {"agrees_with_loss_judged", agrees ? Json(*agrees) : Json(nullptr)},
          {"sentences", list_of(curve_power_sentences(pattern, a))}};
}

Json inputs(const LossPattern& pattern) {
  Json list = Json::array();
  for (const CurveInput& input : pattern.inputs)
    list.push_back({{"name", input.name}, {"u_of_log_changes", by_figure(input.u)}});
  return list;
}

template <class Q>
Json read_off(const std::optional<Q>& q, const CurveReading& r, const Ledger& ledger) {
  return ledger.stated(q, r.origin);
}

Json readings(const std::vector<CurveReading>& stage, const Ledger& ledger) {
  Json list = Json::array();
  for (const CurveReading& r : stage) {
    list.push_back({{"where", ledger.where(r.origin)},
                    {"open_voltage", read_off(r.open_circuit, r, ledger)},
                    {"short_current", read_off(r.short_circuit, r, ledger)},
                    {"voltage_at_maximum", read_off(r.at_maximum, r, ledger)},
                    {"current_at_maximum", read_off(r.current_at_maximum, r, ledger)},
                    {"sun", ledger.stated(r.sun, r.origin)},
                    {"back", ledger.stated(r.back, r.origin)}});
  }
  return list;
}

}  // namespace

Json loss_pattern(const Judged& judged, Ledger& ledger) {
  const std::optional<LossPattern>& found = judged.assessment->pattern;
  if (!found || !judged.test->record.curves) return nullptr;
  const LossPattern& p = *found;
  const CurveReadings& curves = *judged.test->record.curves;
  Json j{{"where", ledger.where(curves.origin)},
         {"word", pattern_word(p.word)},
         {"sentence", pattern_sentence(p)},
         {"remarks", list_of(pattern_remarks(p))},
         {"named", patterns(p.named)},
         {"would_tell_apart", figures(p.would_tell)},
         {"readings_before", readings(curves.before, ledger)},
         {"readings_after", readings(curves.after, ledger)},
         {"changes", Json::array()},
         {"not_read_twice", figures(p.missing)},
         {"fits", Json::array()},
         {"not_weighed", list_of(left_out_sentences(p))},
         {"maximum_power", power(p, *judged.assessment, ledger)},
         {"voltage_alone", list_of(kept_voltage_sentences(p))},
         {"scatter_assumed", p.scatter_assumed},
         {"degrees_of_freedom", degrees_of_freedom(p.degrees_of_freedom)},
         {"inputs", inputs(p)},
         {"rests_on", list_of(pattern_basis(p))},
         {"sources", Json::array({ledger.use(pattern_method)})}};
  for (const CurveChange& c : p.changes)
    j["changes"].push_back(change(c, ledger));
  for (const PatternFit& f : p.fits)
    j["fits"].push_back(fit(f, p, ledger));
  return j;
}

}  // namespace hailwright::json
