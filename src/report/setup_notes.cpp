#include "report/setup_notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// "before 12" as "before " and 12; a number below zero for a name that ends otherwise.
std::pair<std::string, int> split(const std::string& name) {
  const std::size_t last = name.find_last_not_of("0123456789");
  const std::size_t digits = last == std::string::npos ? 0 : last + 1;
  int number = -1;
  std::from_chars(name.data() + digits, name.data() + name.size(), number);
  return {name.substr(0, digits), number};
}

bool follows(const std::string& name, const std::string& other) {
  const auto [words, number] = split(name);
  const auto [other_words, other_number] = split(other);
  return words == other_words && number >= 0 && other_number == number + 1;
}

/// "5.7 %", "4.8 % to 6.4 %": the first number of each note.
std::string range_text(const std::vector<PowerNote>& notes, double scale, int decimals,
                       const char* unit) {
  const auto [low, high] =
      std::minmax_element(notes.begin(), notes.end(), [](const PowerNote& x, const PowerNote& y) {
        return x.numbers.at(0) < y.numbers.at(0);
      });
  const auto shown = [&](const PowerNote& n) {
    return fmt::format("{} {}", fixed(n.numbers.at(0) * scale, decimals), unit);
  };
  const std::string from = shown(*low);
  const std::string to = shown(*high);
  return from == to ? from : from + " to " + to;
}

/// Readings of logs that lie apart may be hundreds.
bool lies_apart_beside(const PowerNote& n, const PowerNote& other) {
  return n.remark == PowerRemark::outlying_reading && n.subject == other.subject;
}

}  // namespace

bool is_of_setup(PowerRemark remark) {
  return remark == PowerRemark::unsteady_irradiance ||
         remark == PowerRemark::unsteady_temperature || remark == PowerRemark::battery_full;
}

std::string setups_text(const std::vector<std::string>& names) {
  expects(!names.empty(), "a set-up");
  std::vector<std::string> items;
  for (std::size_t first = 0; first < names.size();) {
    std::size_t last = first;
    while (last + 1 < names.size() && follows(names[last], names[last + 1]))
      ++last;
    if (last > first + 1) {
      items.push_back(fmt::format("'{}' to '{}'", names[first], names[last]));
    } else {
      for (std::size_t i = first; i <= last; ++i)
        items.push_back(fmt::format("'{}'", names[i]));
    }
    first = last + 1;
  }
  return (names.size() > 1 ? "set-ups " : "set-up ") + enumerate(items);
}

std::string setups_sentence(const std::vector<PowerNote>& notes) {
  expects(!notes.empty(), "a note");
  std::vector<std::string> names;
  for (const PowerNote& n : notes)
    names.push_back(n.subject);
  const PowerNote& first = notes.front();
  switch (first.remark) {
  case PowerRemark::unsteady_irradiance:
    return fmt::format("irradiance moved by {} each way in {}; up to {} % counts as steady",
                       range_text(notes, 100.0, 1, "%"), setups_text(names),
                       fixed(first.numbers.at(1) * 100, 0));
  case PowerRemark::unsteady_temperature:
    return fmt::format("temperature moved by {} each way in {}; up to {} K counts as steady",
                       range_text(notes, 1.0, 1, "K"), setups_text(names),
                       fixed(first.numbers.at(1), 0));
  case PowerRemark::battery_full:
    return fmt::format("the battery stood at {} in {}: above 90 % it does not take all the power",
                       range_text(notes, 100.0, 0, "%"), setups_text(names));
  default:
    fail_contract("not of a set-up");
  }
}

std::vector<std::vector<PowerNote>> by_remark(const std::vector<PowerNote>& notes) {
  std::vector<std::vector<PowerNote>> groups;
  for (const PowerNote& n : notes) {
    auto same = std::find_if(groups.begin(), groups.end(), [&](const auto& group) {
      return group.front().remark == n.remark &&
             (is_of_setup(n.remark) || lies_apart_beside(n, group.front()));
    });
    if (same == groups.end()) same = groups.insert(groups.end(), std::vector<PowerNote>{});
    same->push_back(n);
  }
  return groups;
}

std::string places_text(const SourceSet& sources, const std::vector<PowerNote>& notes) {
  SourceSpan first = notes.front().where;
  SourceSpan last = first;
  for (const PowerNote& n : notes) {
    if (n.where.file != first.file) return {};
    if (n.where.line < first.line) first = n.where;
    if (n.where.line > last.line) last = n.where;
  }
  if (first.line == last.line || first.line == 0) return place_text(sources, last);
  return fmt::format(" ({}, lines {} to {})", sources.name(first.file), first.line, last.line);
}

std::string first_places_text(const SourceSet& sources, const std::vector<PowerNote>& notes) {
  constexpr std::size_t most_named = 3;  // [ours]
  if (notes.size() == 1) return places_text(sources, notes);
  const SourceSpan& first = notes.front().where;
  std::vector<std::string> lines;
  for (const PowerNote& n : notes) {
    if (n.where.file != first.file || n.where.line == 0) return {};
    if (lines.size() < most_named) lines.push_back(std::to_string(n.where.line));
  }
  if (notes.size() > most_named) lines.push_back(fmt::format("{} more", notes.size() - most_named));
  return fmt::format(" ({}, lines {})", sources.name(first.file), enumerate(lines));
}

}  // namespace hailwright
