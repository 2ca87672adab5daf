#include "report/explanation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "report/words.hpp"

namespace hailwright {

std::string six(double value) {
  return fixed(value, 6);
}

std::string as_typed(double value) {
  constexpr int most_digits = 8;
  return plain_number(value, most_digits);
}

std::string hundredfold(double share, int decimals) {
  return fixed(share * 100.0, decimals);
}

std::string freedom_text(double degrees_of_freedom) {
  if (!std::isfinite(degrees_of_freedom)) return "unlimited";
  const std::string text = fixed(degrees_of_freedom, 2);
  return text.ends_with(".00") ? fixed(degrees_of_freedom, 0) : text;
}

std::string degrees_text(double degrees_of_freedom) {
  const std::string number = freedom_text(degrees_of_freedom);
  return number == "1" ? counted(1, "degree") + " of freedom" : number + " degrees of freedom";
}

std::string method_pages(const std::vector<std::string>& names) {
  std::string pages;
  for (const std::string& name : names)
    pages += fmt::format("{}docs/methods/{}.md", pages.empty() ? "" : ", ", name);
  return pages;
}

void append_step(Document& out, Step step) {
  out.blocks.push_back(Heading{2, plain(std::move(step.title))});
  for (std::string& text : step.what)
    out.blocks.push_back(Paragraph{plain(std::move(text))});
  for (Table& table : step.tables)
    out.blocks.push_back(std::move(table));
  Facts facts;
  const auto add = [&](const char* label, std::vector<std::string> lines) {
    Fact fact{label, {}};
    for (std::string& line : lines)
      fact.lines.push_back(plain(std::move(line)));
    if (!fact.lines.empty()) facts.items.push_back(std::move(fact));
  };
  add("formula", std::move(step.formula));
  add("here", std::move(step.here));
  add("source", {step.source, step.pages});
  out.blocks.push_back(std::move(facts));
}

namespace {

/// Takes the terms of one set-up, which stand together, off the front.
std::vector<WeighedRow> take_rows(std::span<const PowerModel::Term>& terms, std::size_t setup,
                                  const Record& record) {
  std::vector<WeighedRow> rows;
  while (!terms.empty()) {
    const Reading& reading = record.readings.at(terms.front().index);
    if (reading.setup != setup) break;
    rows.push_back({&reading, &terms.front()});
    terms = terms.subspan(1);
  }
  return rows;
}

/// Weight of a set-up's value in lambda: that of the struck panel's readings together, or of the
/// only panel's.
double weight_of_value(const std::vector<WeighedRow>& rows) {
  double sum = 0.0;
  for (const WeighedRow& row : rows) {
    if (row.reading->role == rows.front().reading->role) sum += row.term->weight;
  }
  return sum;
}

std::vector<WeighedSetup> of_stages(const PowerModel& model, const Record& record) {
  std::span<const PowerModel::Term> terms = model.terms;
  std::vector<WeighedSetup> setups;
  for (const auto* block : {&model.from, &model.to}) {
    for (const SetupValue& value : *block) {
      WeighedSetup s{&value, 0.0, take_rows(terms, value.setup, record), {}};
      if (s.rows.empty()) return {};
      s.weight = weight_of_value(s.rows);
      setups.push_back(std::move(s));
    }
  }
  return terms.empty() ? setups : std::vector<WeighedSetup>{};
}

/// Each unit counts alike, and so does each set-up of a unit.
std::vector<WeighedSetup> of_siblings(const PowerModel& model, const Record& record) {
  std::vector<WeighedSetup> setups;
  const auto units = static_cast<double>(model.siblings->units.size());
  std::size_t next = 0;
  for (const SiblingSpread::Unit& unit : model.siblings->units) {
    for (int k = 0; k < unit.setups && next < model.from.size(); ++k) {
      setups.push_back({&model.from[next++],
                        -1.0 / units / unit.setups,
                        {},
                        "unit " + record.siblings.at(unit.unit).label});
    }
  }
  for (const SetupValue& value : model.to)
    setups.push_back({&value, 1.0 / static_cast<double>(model.to.size()), {}, "panel"});
  return setups;
}

}  // namespace

std::vector<WeighedSetup> weighed_setups(const PowerModel& model, const Record& record) {
  std::vector<WeighedSetup> setups =
      model.siblings ? of_siblings(model, record) : of_stages(model, record);
  double lambda = 0.0;
  for (const WeighedSetup& s : setups)
    lambda += s.weight * s.setup->q;
  constexpr double rounding = 1e-9;
  if (std::abs(lambda - model.lambda()) > rounding) return {};
  return setups;
}

}  // namespace hailwright
