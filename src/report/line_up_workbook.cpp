#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <set>
#include <utility>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/line_up.hpp"
#include "report/caution_items.hpp"
#include "report/line_up_prices.hpp"
#include "report/report_workbook_sheet.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

using detail::PriceSheet;

/// A column of the first sheet and what it follows on the sheet of prices.
struct Follower {
  const char* title = "";
  const char* follows = "";
  bool by_u = false;  ///< its standard uncertainty: that share of it which the power's is
};

constexpr std::array followers{
    Follower{"rated power", detail::price_column::rated},
    Follower{"weight", detail::price_column::weight},
    Follower{"power", detail::price_column::power},
    Follower{"u of power", detail::price_column::power, true},
    Follower{"share of rated", detail::price_column::share_of_rated},
    Follower{"u of share of rated", detail::price_column::share_of_rated, true},
    Follower{"power per area", detail::price_column::per_area},
    Follower{"u of power per area", detail::price_column::per_area, true},
    Follower{"power per mass", detail::price_column::per_mass},
    Follower{"u of power per mass", detail::price_column::per_mass, true},
    Follower{"price", detail::price_column::price},
    Follower{"lowest price", detail::price_column::lowest},
    Follower{"highest price", detail::price_column::highest},
    Follower{"price per watt", detail::price_column::per_watt},
    Follower{"lowest price per watt", detail::price_column::lowest_per_watt},
    Follower{"highest price per watt", detail::price_column::highest_per_watt},
};

/// The entries in the order of the first table: group after group, then those not ranked.
std::vector<const LineUpEntry*> in_order(const LineUpView& view) {
  std::vector<const LineUpEntry*> order;
  for (const LineUpGroup& group : view.line_up->groups) {
    for (const LineUpRank& rank : group.ranks)
      order.push_back(&view.entries->at(rank.entry));
  }
  for (const LineUpUnranked& unranked : view.line_up->unranked)
    order.push_back(&view.entries->at(unranked.entry));
  return order;
}

std::size_t column_named(const DataTable& table, const std::string& title) {
  const auto found = std::find_if(table.columns.begin(), table.columns.end(),
                                  [&](const DataColumn& c) { return c.title == title; });
  expects(found != table.columns.end(), "a column of the line-up");
  return static_cast<std::size_t>(found - table.columns.begin());
}

/// All records, their prices and what rests on them live.
Sheet followed(const DataTable& table, const PriceSheet& prices) {
  Sheet sheet = TableSheet(table).take();
  for (const Follower& follower : followers) {
    const std::size_t column = column_named(table, follower.title);
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
      SheetCell& cell = sheet.rows[row + 1][column];
      Formula formula{follower.by_u ? prices.u_there(follower.follows, row)
                                    : prices.there(follower.follows, row),
                      std::string()};
      if (const auto* number = std::get_if<double>(&cell.content)) formula.value = *number;
      cell = SheetCell(std::move(formula), table.columns[column].decimals);
    }
  }
  return sheet;
}

/// Each once; their table is in order of urgency, and so are its places in memory.
std::set<const Caution*, std::less<>> cautions_of(const std::vector<LineUpEntry>& entries) {
  std::set<const Caution*, std::less<>> all;
  for (const LineUpEntry& entry : entries)
    all.insert(entry.cautions.begin(), entry.cautions.end());
  return all;
}

Sheet about(const LineUpView& view) {
  constexpr double about_width = 34.0;
  constexpr double words_width = 110.0;
  Sheet sheet{"about", {{about_width}, {words_width}}, {{"about", "what there is to say"}}};
  const auto say = [&](std::string what, std::string words) {
    sheet.rows.push_back({std::move(what), std::move(words)});
  };
  say("what follows what",
      "Cells with a border and a tinted ground on the sheet of prices are yours to change: prices, "
      "powers, area and weight. Prices per watt, shares and powers per area and mass follow, there "
      "and on the first sheet. The order, the ranks, the differences and all words stay those of "
      "the records as judged; for changed records they are made anew by the program.");
  say("ranks", "From the first to the last rank that the differences leave open.");
  say("uncertainty of a price per watt", "That of the measured power; a price is taken as exact.");
  for (const Caution* caution : cautions_of(*view.entries)) {
    const CautionItem item = caution_item(*caution);
    say("caution: " + item.title, item.text + "\nSource: " + item.source);
  }
  say("what this is", std::string(closing_sentence()));
  return sheet;
}

std::string latest_day(const std::vector<LineUpEntry>& entries) {
  std::string latest;
  for (const LineUpEntry& entry : entries)
    latest = std::max(latest, entry.date);
  return latest;
}

}  // namespace

Workbook line_up_workbook(const LineUpView& view) {
  const std::vector<DataTable> tables = line_up_tables(view);
  const PriceSheet prices(in_order(view));
  Workbook book{view.title, {followed(tables.front(), prices), prices.sheet()}};
  for (std::size_t i = 1; i < tables.size(); ++i)
    book.sheets.push_back(TableSheet(tables[i]).take());
  book.sheets.push_back(about(view));
  book.created = latest_day(*view.entries);
  return book;
}

}  // namespace hailwright
