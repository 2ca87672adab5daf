#include "report/line_up_columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "hailwright/core/contract.hpp"
#include "report/line_up_making.hpp"
#include "report/line_up_words.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace detail {

namespace {

using Rows = std::vector<LineUpRow>;

// Who

void add_rank(LineUpMaking& m) {
  if (m.reader == LineUpReader::people) {
    return m.add({"rank", ""}, "not ranked", [](const LineUpRow& row) {
      return row.rank ? DataCell(rank_text(*row.rank)) : DataCell();
    });
  }
  // In one cell "2-4" would become a date in many a spreadsheet program.
  m.add({"rank, first", "", 0}, "", [](const LineUpRow& row) {
    return row.rank ? DataCell(double{static_cast<double>(row.rank->first)}) : DataCell();
  });
  m.add({"rank, last", "", 0}, "", [](const LineUpRow& row) {
    return row.rank ? DataCell(double{static_cast<double>(row.rank->last)}) : DataCell();
  });
}

void add_title(LineUpMaking& m) {
  m.words("record", not_stated, &LineUpEntry::title);
}
void add_panel(LineUpMaking& m) {
  m.words("panel", not_stated, &LineUpEntry::panel);
}
void add_serial(LineUpMaking& m) {
  m.words("serial number", not_stated, &LineUpEntry::serial);
}
void add_build(LineUpMaking& m) {
  m.words("build", not_stated, &LineUpEntry::build);
}
void add_date(LineUpMaking& m) {
  m.words("date", not_stated, &LineUpEntry::date);
}
void add_file(LineUpMaking& m) {
  m.words("file", not_stated, &LineUpEntry::path);
}
void add_connector(LineUpMaking& m) {
  m.words("connector", not_stated, &LineUpEntry::connector);
}
void add_leads(LineUpMaking& m) {
  m.amount("leads", "m", &LineUpEntry::lead_length);
}
void add_weight(LineUpMaking& m) {
  m.amount("weight", "kg", &LineUpEntry::weight);
}
void add_rated(LineUpMaking& m) {
  m.amount("rated power", "W", &LineUpEntry::rated);
}

// Verdict

bool same_series(const Rows& rows) {
  return std::all_of(rows.begin(), rows.end(), [&](const LineUpRow& row) {
    const auto& mine = row.entry->words;
    const auto& first = rows.front().entry->words;
    return std::equal(mine.begin(), mine.end(), first.begin(), first.end(),
                      [](const LineUpWord& a, const LineUpWord& b) {
                        return a.target == b.target && a.places == b.places &&
                               a.is_stress == b.is_stress && (!a.is_stress || a.series == b.series);
                      });
  });
}

/// The target, with the name of the series where several aim at it.
std::string series_title(const std::vector<LineUpWord>& words, std::size_t series) {
  const auto aims = std::count_if(words.begin(), words.end(), [&](const LineUpWord& w) {
    return w.target == words[series].target;
  });
  const std::string& target = words[series].target;
  if (words[series].is_stress) return fmt::format("{} ({})", words[series].series, target);
  return aims > 1 ? fmt::format("{} ({}, series {})", target, words[series].series, series + 1)
                  : target;
}

void add_series(LineUpMaking& m, std::size_t series) {
  m.of_entry({series_title(m.rows.front().entry->words, series), ""}, not_stated,
             [series](const LineUpEntry& e) {
               const LineUpWord& w = e.words[series];
               const std::string word(word_text(w.word));
               // Withstood says of itself that all were struck.
               if (w.word == Word::withstood || w.is_stress) return DataCell(word);
               return DataCell(fmt::format("{} {}/{}", word, w.places_struck, w.places));
             });
}

DataCell target_cell(const LineUpEntry& e, const std::optional<std::size_t>& word) {
  return word ? LineUpMaking::text_cell(e.words.at(*word).target) : DataCell();
}

void add_verdict(LineUpMaking& m) {
  if (m.reader == LineUpReader::people && !m.rows.empty() && same_series(m.rows)) {
    for (std::size_t i = 0; i < m.rows.front().entry->words.size(); ++i)
      add_series(m, i);
    return;
  }
  m.of_entry({"verdict", ""}, "nothing done",
             [](const LineUpEntry& e) { return LineUpMaking::text_cell(verdict_text(e)); });
  m.of_entry(for_machines({"hardest withstood", ""}), "",
             [](const LineUpEntry& e) { return target_cell(e, e.hardest_withstood); });
  m.of_entry(for_machines({"mildest that damaged", ""}), "",
             [](const LineUpEntry& e) { return target_cell(e, e.mildest_damaged); });
}

// All there are

/// What a column is about.
enum class About { record, test, panel };

struct Maker {
  About kind{};
  LineUpColumn column;
  void (*add)(LineUpMaking&) = nullptr;
};

constexpr std::array makers{
    Maker{About::record,
          {"rank", "rank", "from the best place to the worst that these tests leave open"},
          add_rank},
    Maker{About::record, {"record", "record", "title of the record"}, add_title},
    Maker{About::panel, {"panel", "panel", "name in its panel file"}, add_panel},
    Maker{About::panel, {"serial", "serial number", "of the struck panel"}, add_serial},
    Maker{About::test,
          {"verdict", "verdict",
           "a word for each series, with places struck of those named, and for each other stress"},
          add_verdict},
    Maker{About::test,
          {"loss", "loss", "of power by all that was done, with its interval"},
          add_loss},
    Maker{About::test,
          {"smallest-shown", "smallest loss shown", "that the test would have shown"},
          add_smallest_shown},
    Maker{About::panel,
          {"power", "power", "before the shots, at 1000 W/m2 and 25 degC, and its uncertainty"},
          add_power},
    Maker{About::panel, {"rated", "rated power", "by the panel file"}, add_rated},
    Maker{About::panel,
          {"share-of-rated", "share of rated", "measured power by the rated one"},
          add_share_of_rated},
    Maker{About::panel,
          {"power-per-area", "power per area", "measured power by the outer size"},
          add_power_per_area},
    Maker{About::panel,
          {"power-per-mass", "power per mass", "measured power by the weight"},
          add_power_per_mass},
    Maker{About::panel, {"price", "price", "by the panel file, or its average"}, add_price},
    Maker{About::panel,
          {"price-range", "lowest and highest price", "by the panel file"},
          add_price_range},
    Maker{About::panel,
          {"price-per-watt", "price per watt", "price by the measured power"},
          add_price_per_watt},
    Maker{About::panel,
          {"price-per-watt-range", "lowest and highest price per watt", "by the measured power"},
          add_price_per_watt_range},
    Maker{About::panel,
          {"shading-loss", "loss in shade", "of power in partial shade, and the shade"},
          add_shading_loss},
    Maker{About::panel, {"leads", "leads", "length of the leads"}, add_leads},
    Maker{About::panel, {"connector", "connector", "of the leads"}, add_connector},
    Maker{About::panel, {"weight", "weight", "by the panel file"}, add_weight},
    Maker{About::panel, {"build", "build", "framed glass, frameless glass or flexible"}, add_build},
    Maker{About::test, {"date", "date", "of the record"}, add_date},
    Maker{About::test, {"file", "file", "of the record, as typed"}, add_file},
};

const Maker& maker_of(const std::string& word) {
  const auto* maker = std::find_if(makers.begin(), makers.end(),
                                   [&](const Maker& m) { return m.column.word == word; });
  expects(maker != makers.end(), "a column that there is");
  return *maker;
}

std::vector<ColumnPart> parts_of(const Rows& rows, const std::vector<std::string>& words,
                                 LineUpReader reader) {
  LineUpMaking making(rows, reader);
  for (const std::string& word : words)
    maker_of(word).add(making);
  return std::move(making.parts);
}

DataTable table_of(std::vector<ColumnPart> parts, std::size_t rows) {
  DataTable table{"line-up", "", {}, std::vector<std::vector<DataCell>>(rows)};
  for (ColumnPart& part : parts) {
    table.columns.push_back(std::move(part.column));
    for (std::size_t r = 0; r < rows; ++r)
      table.rows[r].push_back(std::move(part.cells[r]));
  }
  return table;
}

bool is_unknown(const ColumnPart& part) {
  return std::all_of(part.cells.begin(), part.cells.end(), [](const DataCell& cell) {
    return std::holds_alternative<std::monostate>(cell);
  });
}

}  // namespace

}  // namespace detail

std::vector<LineUpColumn> line_up_columns() {
  std::vector<LineUpColumn> columns;
  for (const detail::Maker& maker : detail::makers)
    columns.push_back(maker.column);
  return columns;
}

std::vector<std::string> usual_line_up_columns() {
  return {"rank",  "record",         "verdict",        "loss",  "smallest-shown",
          "power", "share-of-rated", "price-per-watt", "weight"};
}

namespace detail {

DataTable line_up_data(const Rows& rows, const std::vector<std::string>& words) {
  return table_of(parts_of(rows, words, LineUpReader::machines), rows.size());
}

Table line_up_table(const Rows& rows, const std::vector<std::string>& words) {
  std::vector<ColumnPart> parts = parts_of(rows, words, LineUpReader::people);
  std::erase_if(parts, [](const ColumnPart& p) { return p.column.for_machines || is_unknown(p); });
  std::vector<const char*> missing;
  for (const ColumnPart& part : parts)
    missing.push_back(part.missing);
  if (parts.empty()) return {};
  Table table = to_table(table_of(std::move(parts), rows.size()));
  for (auto& row : table.rows) {
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (row[c].empty()) row[c] = missing[c];
    }
  }
  table.file.clear();
  return table;
}

std::vector<std::string> line_up_unknown(const Rows& rows, const std::vector<std::string>& words) {
  std::vector<std::string> titles;
  for (const ColumnPart& part : parts_of(rows, words, LineUpReader::people)) {
    if (!part.column.for_machines && is_unknown(part) && part.column.title != "rank")
      titles.push_back(part.column.title);
  }
  return titles;
}

std::vector<std::vector<std::string>> line_up_split(const std::vector<std::string>& words) {
  if (words.size() <= most_in_one_table) return {words};
  std::vector<std::vector<std::string>> tables(2);
  for (const std::string& word : words) {
    const About kind = maker_of(word).kind;
    if (kind != About::panel) tables[0].push_back(word);
    if (kind != About::test) tables[1].push_back(word);
  }
  const auto says_nothing = [](const std::vector<std::string>& table) {
    return std::all_of(table.begin(), table.end(), [](const std::string& word) {
      return maker_of(word).kind == About::record;
    });
  };
  if (says_nothing(tables[0]) || says_nothing(tables[1])) return {words};
  return tables;
}

std::string verdict_text(const LineUpEntry& entry) {
  std::vector<std::string> parts;
  for (const LineUpWord& w : entry.words) {
    if (w.is_stress) {
      parts.push_back(fmt::format("{}: {}", w.series, word_text(w.word)));
      continue;
    }
    parts.push_back(fmt::format("{} {} ({} of {} places)", word_text(w.word), w.target,
                                w.places_struck, w.places));
  }
  return fmt::format("{}", fmt::join(parts, "; "));
}

DataCell finite_cell(double number) {
  return std::isfinite(number) ? DataCell(number) : DataCell();
}

std::string common_level(const Rows& rows) {
  std::set<std::string> levels;
  for (const LineUpRow& row : rows) {
    if (row.entry->loss) levels.insert(level_text(row.entry->loss->alpha));
  }
  return levels.size() == 1 ? *levels.begin() : "";
}

}  // namespace detail

}  // namespace hailwright
