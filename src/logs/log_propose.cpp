// What `--suggest` proposes: everything that can be read from a log's beginning, and the questions
// that it leaves.
#include <fmt/format.h>

#include <algorithm>

#include "hailwright/logs/log_recognise.hpp"
#include "logs/log_columns.hpp"
#include "logs/log_layout.hpp"
#include "logs/log_roles.hpp"
#include "logs/log_stamps.hpp"
#include "logs/log_text_kind.hpp"

namespace hailwright {

namespace {

using namespace detail;

/// A unit that only loggers use stays where it is, in the header: it cannot be stated.
ProposedColumn proposed(const RoleCandidate& candidate, const LogLayout& layout) {
  const bool stated = candidate.unit != nullptr && !only_loggers_use(*candidate.unit);
  const LogHeader& header = layout.headers[candidate.column];
  const bool unread =
      measure_of(candidate.role) && candidate.unit == nullptr && !header.not_read.empty();
  return {candidate.role, layout.header_cells[candidate.column].text,
          stated ? std::string(candidate.unit->symbol) : "",
          unread ? fmt::format("by its name; {} is no unit that is read", header.not_read)
                 : candidate.why};
}

bool several(LogRole role, const std::vector<ProposedColumn>& columns) {
  return std::count_if(columns.begin(), columns.end(),
                       [&](const ProposedColumn& each) { return each.role == role; }) > 1;
}

bool has(LogRole role, const std::vector<ProposedColumn>& columns) {
  return std::any_of(columns.begin(), columns.end(),
                     [&](const ProposedColumn& each) { return each.role == role; });
}

/// Two columns of one header cannot be told apart by a column map.
bool of_one_header(LogRole role, const std::vector<ProposedColumn>& columns) {
  const auto taken = [&](const ProposedColumn& each) { return each.role == role; };
  const auto first = std::find_if(columns.begin(), columns.end(), taken);
  return std::any_of(first + 1, columns.end(), [&](const ProposedColumn& each) {
    return taken(each) && each.header == first->header;
  });
}

std::string unit_question(const LogHeader& header) {
  if (header.not_read.empty())
    return fmt::format("state the unit of the column \"{}\"", header.whole);
  return fmt::format("what {} is in the column \"{}\": a unit that is not read, then export it in "
                     "another one; or none, then state the unit",
                     header.not_read, header.whole);
}

void ask_about_columns(const std::vector<ProposedColumn>& columns,
                       const std::vector<RoleCandidate>& candidates, const LogLayout& layout,
                       std::vector<std::string>& questions) {
  for (std::size_t i = 0; i < log_roles; ++i) {
    const auto role = static_cast<LogRole>(i);
    if (several(role, columns) && of_one_header(role, columns)) {
      questions.push_back(fmt::format(
          "two columns of one header could be the {}: give one of them another name in the file",
          word_of(role)));
    } else if (several(role, columns)) {
      questions.push_back(fmt::format(
          "which column is the {}: take the # away before one of its lines", word_of(role)));
    }
  }
  for (const RoleCandidate& each : candidates) {
    if (measure_of(each.role) && each.unit == nullptr)
      questions.push_back(unit_question(layout.headers[each.column]));
  }
}

/// Questions that `recognise_log` would ask as errors.
void ask_about_rows(const LogLayout& layout, const std::vector<RoleCandidate>& candidates,
                    const LogFormat& stated, ProposedFormat& format) {
  const auto place = [&](LogRole role) -> std::optional<std::size_t> {
    const std::vector<RoleCandidate> found = candidates_for(role, candidates);
    if (found.empty()) return std::nullopt;
    return found.front().column;
  };
  std::vector<std::size_t> numbers;
  for (const RoleCandidate& each : candidates) {
    if (measure_of(each.role)) numbers.push_back(each.column);
  }
  SourceSet unshown;
  Diagnostics problems;
  HeadNotes notes(unshown.add_unkept(""), unshown, problems);
  if (const auto decimal = find_decimal(layout, numbers, stated.decimal, notes)) {
    format.decimal = *decimal;
  } else {
    format.decimal = '\0';
    format.to_answer.emplace_back("state the decimal mark: decimal: comma  or  decimal: point");
  }
  const auto time = place(LogRole::time);
  const auto date = time ? time : place(LogRole::date);
  const auto clock = time ? std::nullopt : place(LogRole::clock);
  if (!date || (!time && !clock)) {
    format.to_answer.emplace_back(
        "name the column of the time:  time:,  or  date:  and  clock:  where it has two");
    return;
  }
  const auto form = find_stamp_form(layout, {*date, clock}, stated.dates, notes);
  if (!form) {
    format.to_answer.emplace_back(
        "state the order of day and month: dates: day first  or  dates: month first");
  }
  if (stated.zone.empty() && (!form || !tells_utc(*form))) {
    format.to_answer.emplace_back(
        "state the zone of the stamps: zone: +02:00  or  zone: Europe/Berlin");
  }
}

/// A text in double quotes by YAML 1.2, 7.3.1.
std::string in_yaml(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (c == '\t') {
      out += "\\t";
    } else {
      out += c;
    }
  }
  return out + '"';
}

std::string column_line(const ProposedColumn& column, bool one_of_several) {
  const std::string name = in_yaml(column.header);
  const std::string value =
      column.unit.empty() ? name : fmt::format("{{name: {}, unit: {}}}", name, column.unit);
  return fmt::format("{}{}: {}  # {}", one_of_several ? "  # " : "  ", word_of(column.role), value,
                     column.why);
}

}  // namespace

std::optional<ProposedFormat> propose_format(std::string_view beginning, std::uint32_t file,
                                             SourceSet& sources, Diagnostics& notes,
                                             const LogFormat& stated) {
  HeadNotes head(file, sources, notes);
  const auto layout = read_layout(beginning, stated.separator, head);
  if (!layout) return std::nullopt;
  const std::vector<RoleCandidate> candidates = role_candidates(*layout);
  ProposedFormat format;
  format.separator = layout->separator;
  format.header_line = layout->header_line.number;
  format.dates = stated.dates;
  format.zone = stated.zone;
  for (std::size_t i = 0; i < layout->header_cells.size(); ++i) {
    const std::string& header = layout->header_cells[i].text;
    format.headers.push_back(header);
    const bool taken = std::any_of(candidates.begin(), candidates.end(),
                                   [&](const RoleCandidate& each) { return each.column == i; });
    if (!taken) format.left_out.push_back(header);
  }
  for (const RoleCandidate& each : candidates)
    format.columns.push_back(proposed(each, *layout));
  ask_about_columns(format.columns, candidates, *layout, format.to_answer);
  ask_about_rows(*layout, candidates, stated, format);
  return format;
}

std::vector<std::string> format_yaml(const ProposedFormat& proposed) {
  std::vector<std::string> lines{"hailwright: columns 1"};
  for (const std::string& question : proposed.to_answer)
    lines.push_back("# Still open: " + question);
  lines.emplace_back("columns:");
  const bool whole_time = has(LogRole::time, proposed.columns);
  for (const ProposedColumn& each : proposed.columns) {
    const bool part = whole_time && (each.role == LogRole::date || each.role == LogRole::clock);
    lines.push_back(column_line(each, part || several(each.role, proposed.columns)));
  }
  for (const std::string& header : proposed.left_out)
    lines.push_back(fmt::format("  # left out: {}", in_yaml(header)));
  lines.push_back(fmt::format("separator: {}", separator_word(proposed.separator)));
  if (proposed.decimal != '\0')
    lines.push_back(fmt::format("decimal: {}", detail::decimal_word(proposed.decimal)));
  if (proposed.dates)
    lines.push_back(fmt::format("dates: {}", detail::date_order_word(*proposed.dates)));
  if (!proposed.zone.empty()) lines.push_back(fmt::format("zone: {}", proposed.zone));
  return lines;
}

}  // namespace hailwright
