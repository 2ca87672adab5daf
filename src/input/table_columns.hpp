#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/core/source.hpp"
#include "input/table_cells.hpp"

namespace hailwright::input {

/// What the cells of a column hold.
enum class Holds {
  text,      ///< words
  clock,     ///< a time of day, 13:05
  landing,   ///< words, or numbers with a unit
  count,     ///< a whole number
  number,    ///< a number without a unit
  quantity,  ///< a number whose unit stands in the header
};

/// One column that a table may have.
struct ColumnRule {
  std::string_view name;  ///< by which readers look it up
  /// In the header, where it is not the name: a word may stand for two columns, of which one has a
  /// unit there (`time ms`) and the other none (`time`).
  std::string_view headed = {};
  Holds holds = Holds::text;
  Measure measure = Measure::ratio;  ///< of a quantity
  std::string_view unit = {};        ///< an example, for messages: "W"
  bool required = false;
  bool repeats = false;         ///< may stand in the header several times
  bool from_above = false;      ///< a blank cell means: as in the row above
  int in_new = 1;               ///< how often a new, empty table has it
  std::string_view means = {};  ///< what its cells hold, for who fills them in

  [[nodiscard]] std::string_view word() const { return headed.empty() ? name : headed; }
};

/// "power W" or "note": how a new table's header has the column.
std::string header_of(const ColumnRule& rule);

/// Values that a column takes, in SI, both ends included unless `above` says so.
struct Limits {
  double low;
  double high;
  bool above = false;      ///< `low` itself is not allowed
  std::string_view words;  ///< "above 0 W, up to 100 kW"
};

/// A table whose columns are known by name. Every lookup by name must be one of the rules'.
class Sheet {
public:
  /// Reads a table and its header after `rules`. All mistakes of the header are reported.
  Sheet(const TableSource& source, std::vector<ColumnRule> rules, Diagnostics& notes);

  /// False when the header does not let the rows be read.
  [[nodiscard]] bool usable() const { return usable_; }
  [[nodiscard]] const std::vector<CellRow>& rows() const { return table_.rows; }
  [[nodiscard]] SourceSpan header() const { return table_.origin; }
  [[nodiscard]] bool has(std::string_view column) const;

  /// The cell of a column; nullptr when the column is not there or the cell is blank. A blank that
  /// means "as above" has the text from above and its own place.
  [[nodiscard]] const Cell* cell(const CellRow& row, std::string_view column) const;
  /// The same, and an error where there is nothing.
  const Cell* required_cell(const CellRow& row, std::string_view column, Diagnostics& notes) const;
  /// The text of a cell, empty when there is none.
  [[nodiscard]] std::string text(const CellRow& row, std::string_view column) const;

  /// A quantity in SI, or a plain number; nullopt when blank or wrong.
  std::optional<double> value(const CellRow& row, std::string_view column, const Limits& limits,
                              Diagnostics& notes) const;
  /// Size of the last digit typed in a cell, in SI; nullopt when blank or wrong.
  [[nodiscard]] std::optional<double> typed_step(const CellRow& row, std::string_view column) const;
  /// The quantities of a column that repeats, blanks left out.
  std::vector<double> values(const CellRow& row, std::string_view column, const Limits& limits,
                             Diagnostics& notes) const;
  std::optional<int> count(const CellRow& row, std::string_view column, int low, int high,
                           Diagnostics& notes) const;
  /// Reads a number that stands in a cell among other text, in the table's decimal mark.
  [[nodiscard]] TextResult<Amount> number(std::string_view text) const;

private:
  /// A column of the table as the header gives it.
  struct Column {
    std::size_t rule = 0;
    const Unit* unit = nullptr;
    SourceSpan origin;
  };
  void read_header(Diagnostics& notes);
  std::optional<Column> read_header_cell(const Cell& cell, Diagnostics& notes) const;
  /// The rule of a word in the header.
  [[nodiscard]] std::optional<std::size_t> rule_of(std::string_view word, bool has_unit) const;
  [[nodiscard]] std::vector<std::string> known_words() const;
  /// The column that a wrong header cell was probably meant to be.
  [[nodiscard]] std::optional<std::size_t> rule_meant(std::string_view header_cell) const;
  bool read_header_unit(const Cell& cell, std::string_view unit, Column& column,
                        Diagnostics& notes) const;
  void fill_from_above();
  void find_decimal_mark(Diagnostics& notes);
  [[nodiscard]] std::size_t rule_index(std::string_view column) const;
  std::optional<double> value_of(const Cell& cell, const Column& column, const Limits& limits,
                                 Diagnostics& notes) const;

  std::vector<ColumnRule> rules_;
  CellTable table_;
  std::vector<Column> columns_;                    ///< by place in the header
  std::vector<std::vector<std::size_t>> by_rule_;  ///< places in the header, by rule
  char decimal_ = '.';
  bool mixed_ = false;
  bool usable_ = false;
};

/// A name in the quotes of messages, cut when it is long.
std::string shown(std::string_view text);

/// The place of a problem inside a cell.
SourceSpan place_in(const Cell& cell, const TextProblem& problem);

/// "did you mean ..." when a known word is near, else the list of them.
std::vector<std::string> word_hints(std::string_view word, const std::vector<std::string>& known);

}  // namespace hailwright::input
