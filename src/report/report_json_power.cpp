#include "report/report_json_parts.hpp"

#include <cmath>

#include "report/check_sentences.hpp"
#include "report/power_sentences.hpp"
#include "report/report_json_words.hpp"
#include "report/sentences.hpp"

namespace hailwright::json {

namespace {

constexpr std::string_view decision_method = "method-interval-and-decision";
constexpr std::string_view trials_method = "method-random-trials";
constexpr std::string_view detection = "method-smallest-loss";
constexpr std::string_view extension = "method-looks-and-extension";

/// Two ends of an interval, in one unit.
Json ends(Ratio low, Ratio high, std::string_view source, Ledger& ledger) {
  return {{"low", ledger.computed(low, {source})}, {"high", ledger.computed(high, {source})}};
}

/// The loss as a part of the power before, at 1000 W/m2 and 25 degC.
Json in_watts(const PowerResult& p, Ledger& ledger) {
  if (!p.before) return nullptr;
  const Power before = p.before->power;
  const auto watts = [&](Ratio r) {
    return ledger.computed(before * r, {decision_method, "method-normalised-power"});
  };
  Json whole = ledger.computed(before, {"method-normalised-power"});
  whole["standard_uncertainty"] = finite(before.si() * p.before->relative_u.si());
  return {{"before", std::move(whole)},
          {"before_relative_uncertainty",
           ledger.computed(p.before->relative_u, {"method-instruments-and-scopes"})},
          {"loss", watts(p.estimate.loss())},
          {"low", watts(p.estimate.low())},
          {"high", watts(p.estimate.high())}};
}

Json could_be_seen(const PowerResult& p, Ledger& ledger) {
  const auto& range = p.smallest_shown_range;
  return {{"smallest_loss", ledger.computed(p.smallest_shown, {detection})},
          {"chance", ledger.computed(p.see_chance, {detection})},
          {"range", range ? ends(range->first, range->second, detection, ledger) : Json(nullptr)},
          {"called_a_drop_above", ledger.computed(p.estimate.real_above(), {detection})}};
}

Json outlying(const PowerResult& p) {
  Json numbers = Json::array();
  for (const std::size_t reading : p.outlying)
    numbers.push_back(reading + 1);
  return numbers;
}

Json variant(const std::optional<LossEstimate>& estimate, Ledger& ledger) {
  return estimate ? loss(*estimate, ledger) : Json(nullptr);
}

Json baseline(const PowerResult& p, Ledger& ledger) {
  if (!p.baseline) return nullptr;
  return {{"units", p.baseline->units},
          {"change", loss(p.baseline->change, ledger)},
          {"moved", p.baseline->moved},
          {"sentence", baseline_sentence(p, *p.baseline)}};
}

Json check(const PowerResult& p, Ledger& ledger) {
  if (!p.check) return nullptr;
  const MonteCarloCheck& c = *p.check;
  return {{"trials", c.trials},
          {"seed", std::to_string(c.seed)},
          {"adaptive", c.adaptive},
          {"capped", c.capped},
          {"median", ledger.computed(c.median, {trials_method})},
          {"mean", ledger.computed(c.mean, {trials_method})},
          {"standard_deviation", ledger.computed(c.standard_u, {trials_method})},
          {"interval", ends(c.low, c.high, trials_method, ledger)},
          {"shortest_interval",
           c.shortest ? ends(c.shortest->first, c.shortest->second, trials_method, ledger)
                      : Json(nullptr)},
          {"above_zero", ledger.computed(c.above_zero, "1", trials_method)},
          {"above_limit", ledger.computed(c.above_limit, "1", trials_method)},
          {"agreed_digits", c.agreed_digits},
          {"answers", answers(c.answers)},
          {"disagrees", c.disagrees},
          {"sentences", list_of(trials_sentences(p, c))}};
}

Json settling(const PowerResult& p, Ledger& ledger) {
  if (!p.settling) return nullptr;
  const Settling& s = *p.settling;
  return {{"as_estimated", or_null(s.as_estimated)},
          {"nearer", or_null(s.nearer)},
          {"further", or_null(s.further)},
          {"chance", ledger.computed(s.chance, "1", extension)},
          {"never", s.never},
          {"other_days", s.other_days},
          {"floor", ledger.computed(s.floor, {extension})},
          {"margin", ledger.computed(s.margin, {extension})},
          {"risk", ledger.computed(s.alpha, "1", extension)},
          {"sentence", settling_sentence(p, s)}};
}

/// Another limit than the protocol's; the verdict stays.
Json readers_limit(const PowerResult& p, const Judged& judged, const LossAnswers* reader,
                   Ledger& ledger) {
  if (reader == nullptr) return nullptr;
  const Ratio limit = judged.reader_limit->limit;
  return {{"limit", ledger.stated(limit, SourceSpan{})},
          {"answers", answers(*reader)},
          {"probability_above",
           p.usable() ? ledger.computed(p.estimate.probability_above(limit), "1", decision_method)
                      : Json(nullptr)},
          {"sentence", reader_limit_sentence(p, limit, *reader)}};
}

Json what_counts(const PowerResult& p) {
  return {{"decides", p.decides},
          {"valid", p.valid},
          {"usable", p.usable()},
          {"rests_on_stated_scatter", p.rests_on_stated},
          {"answered_by_estimate", p.simple},
          {"read_in_turn", p.in_turn},
          {"looks_counted", p.looks_counted},
          {"first_day_after_shots", or_null(p.first_day_after_shots)},
          {"days_after_shots", or_null(p.days_after_shots)}};
}

Json result(const PowerResult& p, const Judged& judged, const LossAnswers* reader, Ledger& ledger) {
  if (!p.estimated()) return nullptr;
  const Test& test = *judged.test;
  Json j{{"estimate", loss(p.estimate, ledger)}};
  j["in_watts"] = in_watts(p, ledger);
  j["limit"] = ledger.stated(p.limit, test.protocol.decide.limit_origin);
  j["probability_above_limit"] =
      ledger.computed(p.estimate.probability_above(p.limit), "1", decision_method);
  j["answers"] = answers(p.answers);
  j["answer_sentences"] = {{"real", real_answer(p)}, {"beyond", beyond_answer(p)}};
  j["counts"] = what_counts(p);
  j["could_be_seen"] = could_be_seen(p, ledger);
  j["skipped_readings"] = p.skipped;
  j["with_skipped"] = variant(p.with_skipped, ledger);
  j["outlying_readings"] = outlying(p);
  j["without_outlying"] = variant(p.without_outlying, ledger);
  j["baseline"] = baseline(p, ledger);
  j["check"] = check(p, ledger);
  j["settling"] = settling(p, ledger);
  j["readers_limit"] = readers_limit(p, judged, reader, ledger);
  j["comparison"] = comparison(*p.model, test, ledger);
  j["budget"] = budget(p, ledger);
  return j;
}

}  // namespace

Json stage(StageId id, const Test& test) {
  const bool of_series = id.kind == StageKind::after_series;
  const bool of_stress = id.kind == StageKind::after_stress;
  return {{"kind", word(id.kind)},
          {"stress", of_stress ? Json(test.protocol.stresses[id.series].name) : Json(nullptr)},
          {"series", of_series ? Json(test.protocol.series[id.series].name) : Json(nullptr)},
          {"name", stage_text(id, test)}};
}

Json answers(const LossAnswers& a) {
  return {{"real", word(a.real)}, {"beyond", word(a.beyond)}, {"gained", a.gained}};
}

Json loss(const LossEstimate& e, Ledger& ledger) {
  return {{"loss", ledger.estimated(e.loss().si(), e.u_loss().si(), e.degrees_of_freedom, "1",
                                    {decision_method})},
          {"interval", ends(e.low(), e.high(), decision_method, ledger)},
          {"level", ledger.computed(1.0 - 2.0 * e.alpha, "1", decision_method)},
          {"risk", ledger.computed(e.alpha, "1", decision_method)},
          {"log_ratio", ledger.estimated(e.lambda, e.u_lambda, e.degrees_of_freedom, "1",
                                         {decision_method, "method-normalised-power"})},
          {"log_ratio_half_width", ledger.computed(e.expanded, "1", decision_method)}};
}

Json power(const PowerResult& p, const Judged& judged, const LossAnswers* reader, Ledger& ledger) {
  return {{"stage", stage(p.stage, *judged.test)},
          {"obstacle", word(p.obstacle)},
          {"obstacle_subject", words_or_null(p.obstacle_subject)},
          {"obstacle_sentence",
           p.estimated() ? Json(nullptr) : Json(obstacle_sentence(p.obstacle, p.obstacle_subject))},
          {"result", result(p, judged, reader, ledger)},
          {"notes", notes(p, *judged.test, ledger)}};
}

}  // namespace hailwright::json
