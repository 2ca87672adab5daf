// Step 2 of an explanation: from the readings of all set-ups to the loss.
#include "report/explanation.hpp"
#include "report/sentences.hpp"

#include <fmt/format.h>

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "report/shown_loss.hpp"

namespace hailwright {

namespace {

double q_of(const PowerModel::Term& term) {
  return log_normalised_power(term.reading, std::array<double, error_slots>{});
}

std::string value_title(const PowerCase& power) {
  switch (power.test.protocol.measure.compare) {
  case Comparison::same_panel:
    return "mean of q";
  case Comparison::control_panel:
    return "q panel - q control";
  case Comparison::sibling_panel:
    return "mean of q";
  }
  fail_contract("unknown comparison");
}

/// Of more readings than these, as a log has, the first and the last are shown [ours].
constexpr std::size_t first_shown = 12, last_shown = 4;

/// The readings of the first set-up, each with its weight in the set-up's value.
Table first_setup_table(const PowerCase& power, const WeighedSetup& setup) {
  Table table{fmt::format("Set-up '{}', reading by reading: its value is the sum of weight x q",
                          power.test.record.setups[setup.setup->setup].name),
              {{"panel"},
               {"P, W", Align::right},
               {"G, W/m2", Align::right},
               {"T, degC", Align::right},
               {"q", Align::right},
               {"weight", Align::right}},
              {}};
  const std::size_t n = setup.rows.size();
  const bool all = n <= first_shown + last_shown + 1;
  for (std::size_t i = 0; i < n; ++i) {
    if (!all && i == first_shown) {
      const std::size_t more = n - first_shown - last_shown;
      table.rows.push_back({fmt::format("{} more like these", more), "", "", "", "", ""});
      i += more;
    }
    const WeighedRow& row = setup.rows[i];
    const Reading& r = *row.reading;
    table.rows.push_back({panel_text(r, power.test.record), as_typed(r.power.si()),
                          as_typed(r.irradiance.si()), as_typed(r.temperature.celsius()),
                          six(q_of(*row.term)), six(row.term->weight / setup.weight)});
  }
  return table;
}

/// Columns of the set-ups; that of the drift only where one was taken out.
class SetupsTable {
public:
  explicit SetupsTable(const PowerCase& power) : power_(power) {
    const PowerModel& m = power.model();
    for (const auto* block : {&m.from, &m.to, &m.baseline}) {
      for (const SetupValue& s : *block)
        drifts_ = drifts_ || s.drift_per_hour;
    }
    table_.caption = drifts_ ? "Set-ups, each with the spread of its readings in per cent and the "
                               "drift taken out in per cent an hour"
                             : "Set-ups, each with the spread of its readings in per cent";
    table_.columns = {{"set-up"},
                      {"readings", Align::right},
                      {value_title(power), Align::right},
                      {"spread", Align::right}};
    if (drifts_) table_.columns.push_back({"drift", Align::right});
    table_.columns.push_back({"weight", Align::right});
  }

  void add(const SetupValue& s, std::optional<double> weight, const std::string& panel = {}) {
    const Setup& setup = power_.test.record.setups[s.setup];
    const bool dated = !setup.date.empty() && setup.date != power_.test.record.date;
    std::vector<std::string> row{fmt::format("{}{}{}", panel.empty() ? "" : panel + ", ",
                                             setup.name, dated ? ", " + setup.date : ""),
                                 std::to_string(s.readings), six(s.q),
                                 s.reading_sd ? hundredfold(*s.reading_sd, 3) : ""};
    if (drifts_) row.push_back(s.drift_per_hour ? hundredfold(*s.drift_per_hour, 2) : "");
    row.push_back(weight ? six(*weight) : "");
    table_.rows.push_back(std::move(row));
  }

  Table finish() { return std::move(table_); }

private:
  const PowerCase& power_;
  Table table_;
  bool drifts_ = false;
};

Table setups_table(const PowerCase& power, const std::vector<WeighedSetup>& weighed) {
  const PowerModel& m = power.model();
  SetupsTable table(power);
  for (const WeighedSetup& s : weighed)
    table.add(*s.setup, s.weight, s.panel);
  if (weighed.empty()) {
    for (const auto* block : {&m.from, &m.to}) {
      for (const SetupValue& s : *block)
        table.add(s, std::nullopt);
    }
  }
  for (const SetupValue& s : m.baseline)
    table.add(s, weighed.empty() ? std::nullopt : std::optional(0.0));
  return table.finish();
}

Table units_table(const PowerCase& power, const SiblingSpread& siblings) {
  Table table{"Unstruck units of the model",
              {{"unit"}, {"set-ups", Align::right}, {"mean of q", Align::right}},
              {}};
  for (const SiblingSpread::Unit& u : siblings.units) {
    table.rows.push_back(
        {power.test.record.siblings.at(u.unit).label, std::to_string(u.setups), six(u.q)});
  }
  return table;
}

std::string means_text(const PowerCase& power) {
  const PowerModel& m = power.model();
  const MeasurementPlan& plan = power.test.protocol.measure;
  std::string text = "The readings of a set-up give one value, and all set-ups of a stage count "
                     "alike, however many readings they have.";
  if (m.siblings) {
    text += " Each unstruck unit counts once, however many set-ups it has.";
  }
  if (m.unit_is_day) {
    text += " Each stage has two days or more, so the mean of a day is what counts once.";
  }
  if (plan.compare == Comparison::control_panel) {
    text += " The value is that of the panel less that of the control, so the sky drops out.";
    text += plan.meters == 1
                ? " The panels were read in turn: where the times are known, a steady drift in "
                  "time that both share is taken out inside the set-up, which the weights do."
                : "";
  }
  if (m.trend) {
    text += " Over all set-ups a straight line in time was taken out beside the step at the shots, "
            "by least squares; the weights are those of the step.";
  }
  return text;
}

/// The mean of each stage by its weights, and lambda as their difference.
std::vector<std::string> stage_means(const std::vector<WeighedSetup>& weighed, std::size_t before) {
  double from = 0.0;
  double to = 0.0;
  for (std::size_t i = 0; i < weighed.size(); ++i) {
    const double part = weighed[i].weight * weighed[i].setup->q;
    (i < before ? from : to) += part;
  }
  return {fmt::format("mean before = {}, mean after = {}", six(-from), six(to)),
          fmt::format("lambda = {} - ({}) = {}", six(to), six(-from), six(to + from))};
}

std::vector<std::string> lambda_lines(const PowerCase& power,
                                      const std::vector<WeighedSetup>& weighed) {
  const PowerModel& m = power.model();
  const double lambda = power.result.estimate.lambda;
  if (m.siblings) {
    double units = 0.0;
    for (const SiblingSpread::Unit& u : m.siblings->units)
      units += u.q / static_cast<double>(m.siblings->units.size());
    return {fmt::format("mean of the units = {}, mean of the struck panel = {}", six(units),
                        six(units + lambda)),
            fmt::format("lambda = {} - ({}) = {}", six(units + lambda), six(units), six(lambda))};
  }
  if (weighed.empty() || m.trend) return {fmt::format("lambda = {}", six(lambda))};
  return stage_means(weighed, m.from.size());
}

std::string lambda_formula(const PowerModel& m, bool weights_known) {
  if (m.siblings) return "lambda = mean of the struck panel - mean of the units' means";
  if (m.trend) return "lambda = sum of weight x value";
  return weights_known ? "lambda = sum of weight x value = mean after - mean before"
                       : "lambda = mean after - mean before";
}

/// The same with other readings.
void variant_lines(Step& step, const PowerResult& p, const Record& record) {
  if (p.with_skipped) step.here.push_back(with_skipped_sentence(p, record));
  if (p.without_outlying) {
    step.here.push_back("without the readings that lie apart: " +
                        interval_text(*p.without_outlying, p));
  }
}

std::vector<std::string> pages_of(const PowerCase& power) {
  const PowerModel& m = power.model();
  std::vector<std::string> pages{"setup-scatter"};
  if (power.test.protocol.measure.compare != Comparison::same_panel) {
    pages.emplace_back("control-and-siblings");
  }
  if (m.trend || power.test.protocol.measure.meters == 1) pages.emplace_back("drift");
  if (!power.result.outlying.empty()) pages.emplace_back("outlying-readings");
  return pages;
}

}  // namespace

Step explain_means(const PowerCase& power) {
  const PowerModel& m = power.model();
  const Ratio loss = power.result.estimate.loss();
  const auto weighed = weighed_setups(m, power.test.record);
  Step step;
  step.title = "2. Set-ups, stages, loss";
  step.what = {means_text(power)};
  if (m.siblings) step.tables.push_back(units_table(power, *m.siblings));
  if (!weighed.empty() && !weighed.front().rows.empty()) {
    step.tables.push_back(first_setup_table(power, weighed.front()));
  }
  step.tables.push_back(setups_table(power, weighed));
  step.formula = {lambda_formula(m, !weighed.empty()), "L = 1 - e^lambda"};
  step.here = lambda_lines(power, weighed);
  step.here.push_back(fmt::format("L = 1 - {} = {} = {} %",
                                  six(std::exp(power.result.estimate.lambda)), six(loss.si()),
                                  hundredfold(loss.si(), 2)));
  variant_lines(step, power.result, power.test.record);
  step.source = m.trend ? "rules M2 and M8; least squares"
                        : "rules M2 (unweighted means) and M8 (drift inside a set-up)";
  step.pages = method_pages(pages_of(power));
  return step;
}

}  // namespace hailwright
