#include "hailwright/report/line_up.hpp"
#include "report/line_up_columns.hpp"
#include "report/line_up_words.hpp"

namespace hailwright {

namespace {

using detail::LineUpRow;

/// Which group a record is ranked in, counted from 1; or why in none.
struct Standing {
  std::optional<std::size_t> group;
  std::string why_not;
};

std::vector<std::string> all_words() {
  std::vector<std::string> words;
  for (const LineUpColumn& column : line_up_columns())
    words.emplace_back(column.word);
  return words;
}

double as_number(std::size_t count) {
  return static_cast<double>(count);
}

DataTable entries_table(const LineUpView& view) {
  std::vector<LineUpRow> rows;
  std::vector<Standing> standings;
  const LineUp& line_up = *view.line_up;
  for (std::size_t g = 0; g < line_up.groups.size(); ++g) {
    for (const LineUpRank& rank : line_up.groups[g].ranks) {
      rows.push_back({&view.entries->at(rank.entry), rank});
      standings.push_back({g + 1, ""});
    }
  }
  for (const LineUpUnranked& u : line_up.unranked) {
    rows.push_back({&view.entries->at(u.entry), std::nullopt});
    standings.push_back({std::nullopt, detail::unranked_sentence(view, u)});
  }
  DataTable table = detail::line_up_data(rows, all_words());
  table.caption = "All records: group after group in order, then those that are not ranked";
  table.columns.insert(table.columns.begin(), {"group", "", 0});
  table.columns.push_back({"not ranked because", ""});
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const Standing& s = standings[r];
    table.rows[r].insert(table.rows[r].begin(),
                         s.group ? DataCell(as_number(*s.group)) : DataCell());
    table.rows[r].push_back(s.why_not.empty() ? DataCell() : DataCell(s.why_not));
  }
  return table;
}

DataTable differences_table(const LineUpView& view) {
  DataTable table{
      "differences",
      "Differences that were looked at, of natural logarithms. low and high: "
      "simultaneous interval of a group (Bonferroni). p adjusted: after Holm where each "
      "pair was looked at, otherwise after Bonferroni for all pairs of the group",
      {{"group", "", 0},
       {"first", ""},
       {"second", ""},
       for_machines({"file of the first", ""}),
       for_machines({"file of the second", ""}),
       {"difference of ln", "", 4},
       {"u of ln", "", 4},
       {"degrees of freedom", "", 1},
       {"low of ln", "", 4},
       {"high of ln", "", 4},
       {"p", "", 4},
       {"p adjusted", "", 4},
       {"shown?", ""}},
      {}};
  for (std::size_t g = 0; g < view.line_up->groups.size(); ++g) {
    for (const LineUpDifference& d : view.line_up->groups[g].differences) {
      const LineUpEntry& a = view.entries->at(d.better);
      const LineUpEntry& b = view.entries->at(d.worse);
      table.rows.push_back({as_number(g + 1), a.title, b.title, a.path, b.path, d.difference,
                            d.standard_u, detail::finite_cell(d.degrees_of_freedom), d.low, d.high,
                            d.p, d.p_adjusted, d.shown ? "yes" : "no"});
    }
  }
  return table;
}

}  // namespace

std::vector<DataTable> line_up_tables(const LineUpView& view) {
  std::vector<DataTable> tables{entries_table(view)};
  if (!view.line_up->groups.empty()) tables.push_back(differences_table(view));
  return tables;
}

}  // namespace hailwright
