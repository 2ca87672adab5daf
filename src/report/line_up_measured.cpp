#include <fmt/format.h>

#include <cmath>
#include <set>

#include "hailwright/core/quantity_text.hpp"
#include "report/line_up_making.hpp"
#include "report/report_tables.hpp"
#include "report/shown_loss.hpp"

namespace hailwright::detail {

namespace {

/// As `loss_decimals`: a digit of the uncertainty always, a second one up to tenths.
int decimals_of(const LossEstimate& e, Ratio limit) {
  const int two_digits = decimals_for(100.0 * e.u_loss().si());
  const int decimals = std::max(two_digits - 1, std::min(two_digits, 1));
  return telling_decimals({e.low(), e.high()}, limit, decimals);
}

template <class Value>
void add_of_loss(LineUpMaking& m, DataColumn column, Value value) {
  m.of_entry(std::move(column), not_measured, [&](const LineUpEntry& e) {
    return e.loss ? finite_cell(value(*e.loss)) : DataCell();
  });
}

const LineUpNumber* number_of(const LineUpEntry& e, LineUpQuantity quantity) {
  const auto found = e.numbers.find(quantity);
  return found == e.numbers.end() ? nullptr : &found->second;
}

struct NumberColumn {
  LineUpQuantity quantity{};
  const char* title = "";
  const char* unit = "";
  double per_si = 1.0;
};

/// Decimals that show each to the second digit of its uncertainty.
int most_decimals(const std::vector<LineUpRow>& rows, const NumberColumn& n) {
  int most = 0;
  for (const LineUpRow& row : rows) {
    const LineUpNumber* number = number_of(*row.entry, n.quantity);
    if (number == nullptr || !(number->standard_u > 0.0)) continue;
    most = std::max(most, decimals_for(n.per_si * std::exp(number->log) * number->standard_u));
  }
  return most;
}

void add_number(LineUpMaking& m, const NumberColumn& n) {
  const int decimals = most_decimals(m.rows, n);
  const auto add = [&](DataColumn column, auto value) {
    m.of_entry(std::move(column), not_measured, [&](const LineUpEntry& e) {
      const LineUpNumber* number = number_of(e, n.quantity);
      return number == nullptr ? DataCell() : DataCell(n.per_si * value(*number));
    });
  };
  add({n.title, n.unit, decimals}, [](const LineUpNumber& x) { return std::exp(x.log); });
  const DataColumn u{fmt::format("u of {}", n.title), n.unit, decimals};
  add(n.quantity == LineUpQuantity::power ? u : for_machines(u),
      [](const LineUpNumber& x) { return std::exp(x.log) * x.standard_u; });
}

using PriceField = std::optional<Money> LineUpEntry::*;

/// The one currency of all prices; empty where there are several.
std::string common_currency(const std::vector<LineUpRow>& rows) {
  std::set<std::string> currencies;
  for (const LineUpRow& row : rows) {
    if (row.entry->price) currencies.insert(row.entry->price->currency);
  }
  return currencies.size() == 1 ? *currencies.begin() : "";
}

/// People read one currency in the titles; of several, and for machines, it has a column.
bool has_currency_column(const LineUpMaking& m) {
  return m.reader == LineUpReader::machines || common_currency(m.rows).empty();
}

void add_currency(LineUpMaking& m) {
  const bool there = std::any_of(m.parts.begin(), m.parts.end(), [](const ColumnPart& part) {
    return part.column.title == "currency";
  });
  if (there || !has_currency_column(m)) return;
  m.of_entry({"currency", ""}, not_stated, [](const LineUpEntry& e) {
    return e.price ? DataCell(e.price->currency) : DataCell();
  });
}

void add_price_column(LineUpMaking& m, const char* title, PriceField price) {
  m.of_entry({title, has_currency_column(m) ? "" : common_currency(m.rows), 2}, not_stated,
             [price](const LineUpEntry& e) {
               return e.*price ? DataCell((e.*price)->amount) : DataCell();
             });
}

void add_per_watt_column(LineUpMaking& m, const char* title, PriceField price) {
  const std::string currency = has_currency_column(m) ? "currency" : common_currency(m.rows);
  m.of_entry({title, currency + "/W", 2}, not_stated, [price](const LineUpEntry& e) {
    const LineUpNumber* power = number_of(e, LineUpQuantity::power);
    return power != nullptr && e.*price ? DataCell((e.*price)->amount / std::exp(power->log))
                                        : DataCell();
  });
}

}  // namespace

void add_loss(LineUpMaking& m) {
  int decimals = 0;
  for (const LineUpRow& row : m.rows) {
    if (row.entry->loss)
      decimals =
          std::max(decimals, decimals_of(*row.entry->loss, row.entry->limit.value_or(Ratio())));
  }
  using E = const LossEstimate&;
  add_of_loss(m, {column::loss, "%", decimals}, [](E e) { return 100.0 * e.loss().si(); });
  add_of_loss(m, {column::low, "%", decimals}, [](E e) { return 100.0 * e.low().si(); });
  add_of_loss(m, {column::high, "%", decimals}, [](E e) { return 100.0 * e.high().si(); });
  DataColumn level{"level of the interval", "%", 1};
  const bool in_words = !common_level(m.rows).empty();
  add_of_loss(m, in_words ? for_machines(std::move(level)) : std::move(level),
              [](E e) { return 100.0 * (1.0 - 2.0 * e.alpha); });
  add_of_loss(m, for_machines({column::lambda, "", 5}), [](E e) { return e.lambda; });
  add_of_loss(m, for_machines({column::u_lambda, "", 5}), [](E e) { return e.u_lambda; });
  add_of_loss(m, for_machines({"degrees of freedom", "", 1}),
              [](E e) { return e.degrees_of_freedom; });
  m.of_entry(for_machines({"stage", ""}), "",
             [](const LineUpEntry& e) { return LineUpMaking::text_cell(e.stage); });
  m.of_entry(for_machines({"limit", "%", 1}), "", [](const LineUpEntry& e) {
    return e.limit ? DataCell(100.0 * e.limit->si()) : DataCell();
  });
}

void add_smallest_shown(LineUpMaking& m) {
  m.of_entry({"smallest loss shown", "%", 1}, not_measured, [](const LineUpEntry& e) {
    return e.smallest_shown ? DataCell(100.0 * e.smallest_shown->si()) : DataCell();
  });
}

void add_power(LineUpMaking& m) {
  add_number(m, {LineUpQuantity::power, "power", "W"});
}

void add_share_of_rated(LineUpMaking& m) {
  add_number(m, {LineUpQuantity::share_of_rated, "share of rated", "%", 100.0});
}

void add_power_per_area(LineUpMaking& m) {
  add_number(m, {LineUpQuantity::power_per_area, "power per area", "W/m2"});
}

void add_power_per_mass(LineUpMaking& m) {
  add_number(m, {LineUpQuantity::power_per_mass, "power per mass", "W/kg"});
}

void add_shading_loss(LineUpMaking& m) {
  const auto lost = [](const LineUpNumber& x) { return -100.0 * std::expm1(x.log); };
  const auto add = [&](DataColumn column, auto value) {
    m.of_entry(std::move(column), not_measured, [&](const LineUpEntry& e) {
      const LineUpNumber* number = number_of(e, LineUpQuantity::shading_loss);
      return number == nullptr ? DataCell() : DataCell(value(*number));
    });
  };
  const int decimals = most_decimals(m.rows, {LineUpQuantity::shading_loss, "", "", 100.0});
  add({"loss in shade", "%", decimals}, lost);
  add(for_machines({"u of loss in shade", "points", decimals}),
      [](const LineUpNumber& x) { return 100.0 * std::exp(x.log) * x.standard_u; });
  m.of_entry({"shade", ""}, not_stated, [](const LineUpEntry& e) {
    return e.shade ? LineUpMaking::text_cell(*e.shade) : DataCell();
  });
}

void add_price(LineUpMaking& m) {
  add_price_column(m, "price", &LineUpEntry::price);
  add_currency(m);
}

void add_price_range(LineUpMaking& m) {
  add_price_column(m, "lowest price", &LineUpEntry::lowest_price);
  add_price_column(m, "highest price", &LineUpEntry::highest_price);
  add_currency(m);
}

void add_price_per_watt(LineUpMaking& m) {
  add_per_watt_column(m, "price per watt", &LineUpEntry::price);
  add_currency(m);
}

void add_price_per_watt_range(LineUpMaking& m) {
  add_per_watt_column(m, "lowest price per watt", &LineUpEntry::lowest_price);
  add_per_watt_column(m, "highest price per watt", &LineUpEntry::highest_price);
  add_currency(m);
}

}  // namespace hailwright::detail
