#include "logs/log_stamps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <vector>

#include "core/quoted.hpp"
#include "logs/log_stamp_scan.hpp"

namespace hailwright::detail {

namespace {

bool same(const StampForm& a, const StampForm& b) {
  return a.kind == b.kind && a.dates == b.dates && a.own_offset == b.own_offset &&
         a.date_mark == b.date_mark && a.twelve_hour == b.twelve_hour;
}

/// The stamp of a row by any form.
std::optional<StampGlance> glance(const HeadRow& row, const StampColumns& columns,
                                  std::optional<DateOrder> dates) {
  const std::string& first = row.cells[columns.first].text;
  return columns.clock ? glance_at_stamp(first, row.cells[*columns.clock].text, dates)
                       : glance_at_stamp(first, dates);
}

struct SeenForm {
  StampForm form;
  std::size_t rows = 0;
  const HeadRow* told = nullptr;  ///< the first row that leaves no other order
  const HeadRow* first = nullptr;
};

std::vector<SeenForm> forms_of(const LogLayout& layout, const StampColumns& columns,
                               std::optional<DateOrder> dates) {
  std::vector<SeenForm> seen;
  for (const HeadRow& row : layout.rows) {
    const auto found = glance(row, columns, dates);
    if (!found) continue;
    auto at = std::find_if(seen.begin(), seen.end(),
                           [&](const SeenForm& each) { return same(each.form, found->form); });
    if (at == seen.end()) at = seen.insert(seen.end(), {found->form, 0, nullptr, &row});
    ++at->rows;
    if (found->order_told && at->told == nullptr) at->told = &row;
  }
  return seen;
}

/// The form of most rows; the earlier one of two.
const SeenForm& most_seen(const std::vector<SeenForm>& seen) {
  return *std::max_element(seen.begin(), seen.end(),
                           [](const SeenForm& a, const SeenForm& b) { return a.rows < b.rows; });
}

/// The same stamps with day and month in the other order, if any row asks for that.
const SeenForm* other_order(const std::vector<SeenForm>& seen, const StampForm& form) {
  const auto found = std::find_if(seen.begin(), seen.end(), [&](const SeenForm& each) {
    StampForm swapped = each.form;
    swapped.dates = form.dates;
    return each.form.dates != form.dates && each.form.dates != DateOrder::year_first &&
           form.dates != DateOrder::year_first && same(swapped, form);
  });
  return found == seen.end() ? nullptr : &*found;
}

const HeadCell& first_cell(const HeadRow& row, const StampColumns& columns) {
  return row.cells[columns.first];
}

void report_no_stamps(const LogLayout& layout, const StampColumns& columns, HeadNotes& notes) {
  const auto row = std::find_if(layout.rows.begin(), layout.rows.end(), [&](const HeadRow& each) {
    return !first_cell(each, columns).text.empty();
  });
  if (row == layout.rows.end()) {
    notes.error("L12", layout.header_line, layout.header_cells[columns.first],
                "the column of time is blank", {});
    return;
  }
  const HeadCell& cell = first_cell(*row, columns);
  std::string mend = mend_of_times(cell.text);
  if (mend.empty()) mend = "stamps that are read look like 2026-06-14 10:02:03 or 14.06.2026 10:02";
  notes.error("L12", row->line, cell,
              fmt::format("{} is no date and time that is read", quoted(cell.text)),
              {std::move(mend)});
}

std::optional<StampForm> report_open_order(const SeenForm& form, const StampColumns& columns,
                                           HeadNotes& notes) {
  const HeadCell& cell = first_cell(*form.first, columns);
  notes.error("L06", form.first->line, cell,
              fmt::format("{}: day and month could change places", quoted(cell.text)),
              {"state the order: --dates day-first or month-first, or in a record or column map  "
               "dates: day first"});
  return std::nullopt;
}

std::optional<StampForm> report_both_orders(const HeadRow& one, const HeadRow& other,
                                            const StampColumns& columns, HeadNotes& notes) {
  const bool later = other.line.number > one.line.number;
  const HeadRow& second = later ? other : one;
  const HeadRow& first = later ? one : other;
  const HeadCell& cell = first_cell(second, columns);
  notes
      .error("L06", second.line, cell,
             fmt::format("{} has day and month in the other order than the rows above",
                         quoted(cell.text)),
             {"export the log with one order of day and month, or state which one to read: --dates "
              "day-first or month-first"})
      .related.push_back(
          {notes.span(first.line, first_cell(first, columns)), "the other order stands here"});
  return std::nullopt;
}

bool all_digits(std::string_view text) {
  return !text.empty() &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// "14.06.26 10:02": three numbers of two digits.
bool has_two_digit_year(std::string_view cell) {
  const std::string_view date = cell.substr(0, cell.find(' '));
  if (date.size() < 6 || date.size() > 8) return false;
  const char mark = date[date.size() - 3];
  if (mark != '.' && mark != '/' && mark != '-') return false;
  const std::size_t first = date.find(mark);
  return first + 3 < date.size() && all_digits(date.substr(0, first)) &&
         all_digits(date.substr(date.size() - 2));
}

}  // namespace

std::string mend_of_times(std::string_view cell) {
  const CellKind kind = kind_of(cell);
  if (has_two_digit_year(cell)) return "export the log with years of four digits: 14.06.2026";
  if (std::string beyond = beyond_range(cell); !beyond.empty()) return beyond;
  if (kind == CellKind::number || kind == CellKind::comma_number)
    return "times that count from the start of the log do not say when it was: export it with date "
           "and time of day, or as Unix time of 10 or 13 digits";
  if (kind == CellKind::clock)
    return "a time of day needs its date: name the column of the date too, as  date:  and  clock:";
  if (kind == CellKind::date)
    return "a date needs a time of day: name the column of it too, as  date:  and  clock:";
  return {};
}

std::optional<StampForm> find_stamp_form(const LogLayout& layout, const StampColumns& columns,
                                         std::optional<DateOrder> dates, HeadNotes& notes) {
  const std::vector<SeenForm> seen = forms_of(layout, columns, dates);
  if (seen.empty()) {
    report_no_stamps(layout, columns, notes);
    return std::nullopt;
  }
  const SeenForm& most = most_seen(seen);
  const bool one_order =
      most.form.dates == DateOrder::year_first || most.form.kind != StampForm::Kind::calendar;
  if (dates || one_order) return most.form;
  const SeenForm* other = other_order(seen, most.form);
  const HeadRow* others_row = other == nullptr ? nullptr : other->told;
  if (most.told != nullptr && others_row != nullptr)
    return report_both_orders(*most.told, *others_row, columns, notes);
  if (most.told != nullptr) return most.form;
  if (others_row != nullptr) return other->form;
  return report_open_order(most, columns, notes);
}

double find_usual_step(const LogLayout& layout, const StampColumns& columns,
                       const StampForm& form) {
  StampReader reader(form);
  std::vector<std::int64_t> steps;
  std::optional<std::int64_t> before;
  for (const HeadRow& row : layout.rows) {
    const std::string& first = row.cells[columns.first].text;
    std::int64_t us = 0;
    const bool read = columns.clock ? reader.read(first, row.cells[*columns.clock].text, us)
                                    : reader.read(first, us);
    if (!read) continue;
    if (before && us > *before) steps.push_back(us - *before);
    before = us;
  }
  if (steps.empty()) return 0.0;
  const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
  std::nth_element(steps.begin(), middle, steps.end());
  return static_cast<double>(*middle) / static_cast<double>(second_us);
}

}  // namespace hailwright::detail
