#include "report/plan_measuring.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/quantity_text.hpp"
#include "report/plan_forecast_sentences.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

/// Rows of the budget that are worth a line.
constexpr std::size_t budget_lines = 5;
constexpr std::size_t advice_lines = 3;

std::string points(Ratio r) {
  return fixed(r.si() * 100.0, 1);
}

std::string chance(double p, bool decides) {
  return decides ? probability_text(p) : "-";
}

/// What is repeated: set-ups of both stages, or unstruck units.
const char* repeated(const MeasuringForecast& f) {
  return f.spread ? "unstruck units" : "set-ups";
}

std::string count_text(const MeasuringForecast& f, const PlannedUnits& units) {
  return f.spread ? std::to_string(units.siblings)
                  : fmt::format("{} + {}", units.before, units.after);
}

/// How what can be seen grows with the number of set-ups, or of unstruck units.
Table curve(const MeasuringForecast& f, const std::string& panel, Ratio limit) {
  Table table{fmt::format("{}: what a number of {} can tell, at {} {}", panel, repeated(f),
                          percent_text(f.spread.value_or(f.scatter)),
                          f.spread ? "spread" : "scatter"),
              {{repeated(f), Align::left},
               {"known to, points", Align::right},
               {"called a drop above, %", Align::right},
               {"smallest loss shown, %", Align::right},
               {fmt::format("shows {}", percent_text(f.claim)), Align::right},
               {fmt::format("shows none above {}", limit_text(limit)), Align::right}},
              {}};
  for (const MeasuringOutlook& o : f.curve) {
    if (!o.estimated()) continue;
    table.rows.push_back(
        {count_text(f, o.units), points(o.half_width), o.decides ? points(o.real_above) : "-",
         o.decides ? points(o.smallest_shown) : "-", chance(o.chance_at_claim, o.decides),
         chance(o.chance_within, o.decides)});
  }
  return table;
}

std::string needed_cell(const MeasuringForecast& f) {
  if (!f.needed) return "none suffices";
  return f.spread ? std::to_string(*f.needed) : fmt::format("{0} + {0}", *f.needed);
}

/// One line a scatter, where none is known; or a spread.
Table tried(const std::vector<MeasuringForecast>& forecasts, const std::string& panel) {
  const MeasuringForecast& first = forecasts.front();
  Table table{fmt::format("{}: what the planned {} can tell, by how far they may {}", panel,
                          repeated(first), first.spread ? "differ" : "scatter"),
              {{first.spread ? "spread, %" : "scatter, %", Align::right},
               {repeated(first), Align::left},
               {"known to, points", Align::right},
               {"smallest loss shown, %", Align::right},
               {fmt::format("{} needed to show {}", repeated(first), percent_text(first.claim)),
                Align::left}},
              {}};
  for (const MeasuringForecast& f : forecasts) {
    const MeasuringOutlook& o = f.best();
    if (!o.estimated()) continue;
    table.rows.push_back({points(f.spread.value_or(f.scatter)), count_text(f, o.units),
                          points(o.half_width), points(o.smallest_shown), needed_cell(f)});
  }
  return table;
}

Fact lines(std::string label, std::vector<std::string> texts) {
  Fact fact{std::move(label), {}};
  for (std::string& text : texts)
    fact.lines.push_back(plain(std::move(text)));
  return fact;
}

/// The forecast that sentences speak of: the stated scatter, or the middle one of those tried.
const MeasuringForecast& spoken(const std::vector<MeasuringForecast>& forecasts) {
  return forecasts[forecasts.size() / 2];
}

void append_panel(const PanelOutlook& panel, Ratio limit, Document& out) {
  const MeasuringForecast& f = spoken(panel.power);
  Facts facts;
  std::vector<std::string> says{claim_sentence(f)};
  for (const ForecastFact fact : f.facts)
    says.push_back(fact_sentence(fact, f, limit));
  facts.items.push_back(lines(panel.panel->name, std::move(says)));
  std::vector<std::string> helps;
  for (const MeasuringAdvice& advice : f.helps)
    if (helps.size() < advice_lines) helps.push_back(advice_sentence(advice));
  if (!helps.empty()) facts.items.push_back(lines("lowers the loss shown", std::move(helps)));
  std::vector<std::string> spoils;
  for (const MeasuringAdvice& advice : f.spoils)
    if (spoils.size() < advice_lines) spoils.push_back(advice_sentence(advice));
  if (!spoils.empty()) facts.items.push_back(lines("raises it", std::move(spoils)));
  std::vector<std::string> budget;
  for (const BudgetLine& line : f.budget) {
    if (budget.size() == budget_lines) break;
    budget.push_back(fmt::format("{}: {} points, {} of the variance", line.label,
                                 fixed(line.standard_u * 100.0, 2), percent_text(line.share, 0)));
  }
  if (!budget.empty()) facts.items.push_back(lines("uncertainty from", std::move(budget)));
  out.blocks.push_back(std::move(facts));
  if (f.tried()) {
    out.blocks.push_back(tried(panel.power, panel.panel->name));
  } else {
    out.blocks.push_back(curve(f, panel.panel->name, limit));
  }
}

}  // namespace

void append_measuring_outlook(const TestPlan& plan, Document& out) {
  out.blocks.push_back(Heading{1, plain("Can it answer?")});
  if (!plan.protocol->decide.judges_power) {
    out.blocks.push_back(Paragraph{plain("The protocol judges by looks alone: nothing will be said "
                                         "about power.")});
    return;
  }
  for (const PanelOutlook& panel : plan.outlook.panels) {
    if (!panel.power.empty()) append_panel(panel, plan.protocol->decide.limit, out);
  }
}

}  // namespace hailwright
