#include "input/map_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/quoted.hpp"
#include "hailwright/core/calendar.hpp"
#include "hailwright/core/contract.hpp"

namespace hailwright::input {

namespace {

constexpr std::size_t most_unknown_keys = 20;

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words)
    out += (out.empty() ? "" : ", ") + word;
  return out;
}

void report_kind(const Node& node, std::string_view what, std::string_view wanted,
                 Diagnostics& notes) {
  if (node.kind == NodeKind::broken) return;
  notes.error("K05", node.span,
              fmt::format("{} must be {}, found {}", what, wanted, name(node.kind)));
}

}  // namespace

std::vector<std::string> words_of(std::string_view words) {
  std::vector<std::string> out;
  while (!words.empty()) {
    const std::size_t blank = std::min(words.find(' '), words.size());
    if (blank > 0) out.emplace_back(words.substr(0, blank));
    words.remove_prefix(std::min(blank + 1, words.size()));
  }
  return out;
}

bool Range::holds(double si) const {
  // An end as typed, 99.9 %, is rounded on its way to SI: 0.9990000000000001. Nothing more than
  // that.
  constexpr double rounding = 1e-12;
  const double low_room = rounding * std::abs(low);
  // "More than 0" leaves out what is next to nothing beside the largest: 1e-300 W is no reading,
  // and what is divided by it fits no number.
  if (low == 0.0 && low_open && si < least_share_of_range * high) return false;
  const double high_room = rounding * std::abs(high);
  return (low_open ? si > low + low_room : si >= low - low_room) &&
         (high_open ? si < high - high_room : si <= high + high_room);
}

bool is_iso_date(std::string_view text) {
  // There is no year 0.
  return day_number(text) && !text.starts_with("0000");
}

std::optional<std::string> read_text(const Node& node, std::string_view what, Diagnostics& notes) {
  if (node.kind == NodeKind::text) return node.text;
  report_kind(node, what, "a text", notes);
  return std::nullopt;
}

void add_problem(const Node& node, const TextProblem& problem, std::string_view what,
                 Diagnostics& notes) {
  notes.error(problem.code, span_in(node, problem.offset, problem.length),
              fmt::format("{}: {}", what, problem.message), problem.hints);
}

std::optional<Amount> read_amount_of(const Node& node, std::string_view what, Measure measure,
                                     const Range& range, Diagnostics& notes) {
  if (node.kind != NodeKind::text) {
    report_kind(node, what, fmt::format("{} with its unit", name(measure)), notes);
    return std::nullopt;
  }
  const TextResult<Amount> amount = read_amount(node.text, measure);
  if (amount.problem) {
    add_problem(node, *amount.problem, what, notes);
    return std::nullopt;
  }
  if (!range.holds(amount.value->si)) {
    notes.error(
        "R01", node.span,
        fmt::format("{} must be {}, found {}", what, range.words, detail::quoted(node.text)));
    return std::nullopt;
  }
  return amount.value;
}

void report_unknown(std::string_view code, SourceSpan where, std::string message,
                    std::string_view word, const std::vector<std::string>& known,
                    Diagnostics& notes) {
  const std::optional<std::string> nearest = nearest_word(word, known);
  std::string hint;
  if (nearest) {
    hint = fmt::format("did you mean '{}'?", *nearest);
  } else if (!known.empty()) {
    hint = fmt::format("known are {}", joined(known));
  }
  notes.error(code, where, std::move(message),
              hint.empty() ? std::vector<std::string>{} : std::vector<std::string>{hint});
}

std::optional<std::size_t> read_word(const Node& node, std::string_view what,
                                     const std::vector<std::string>& words, Diagnostics& notes) {
  const std::optional<std::string> text = read_text(node, what, notes);
  if (!text) return std::nullopt;
  const auto found = std::find(words.begin(), words.end(), *text);
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  std::string lower = *text;
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  report_unknown("K06", node.span, fmt::format("{} cannot be {}", what, detail::quoted(*text)),
                 lower, words, notes);
  return std::nullopt;
}

MapReader::MapReader(const Node& node, const KeyList& keys, SourceSpan owner, Diagnostics& notes)
    : keys_(keys), owner_(owner), notes_(notes) {
  if (node.kind == NodeKind::map) {
    map_ = &node;
    report_unknown_keys();
    return;
  }
  if (node.kind == NodeKind::broken) return;
  notes.error(
      "K05", node.span,
      fmt::format("{} must be {}, found {}", keys.where, name(NodeKind::map), name(node.kind)),
      {fmt::format("its keys are {}", joined(words_of(keys.keys)))});
}

void MapReader::report_unknown_keys() const {
  const std::vector<std::string> known = words_of(keys_.keys);
  std::size_t unknown = 0;
  for (const Entry& entry : map_->entries) {
    if (knows(entry.key)) continue;
    if (++unknown > most_unknown_keys) continue;
    report_unknown("K01", entry.key_span,
                   fmt::format("unknown key {} in {}", quoted(entry.key), keys_.where), entry.key,
                   known, notes_);
  }
  if (unknown > most_unknown_keys) {
    notes_.error(
        "K01", owner_,
        fmt::format("{} more unknown keys in {}", unknown - most_unknown_keys, keys_.where));
  }
}

std::string MapReader::quoted(std::string_view key) {
  const std::string shown = detail::quoted(key);
  return "'" + shown.substr(1, shown.size() - 2) + "'";
}

bool MapReader::knows(std::string_view key) const {
  const std::vector<std::string> known = words_of(keys_.keys);
  return std::find(known.begin(), known.end(), key) != known.end();
}

const Entry* MapReader::find(std::string_view key) const {
  expects(knows(key), "a key that the list of this mapping does not have");
  if (map_ == nullptr) return nullptr;
  const auto found = std::find_if(map_->entries.begin(), map_->entries.end(),
                                  [&](const Entry& entry) { return entry.key == key; });
  return found == map_->entries.end() ? nullptr : &*found;
}

const Entry* MapReader::require(std::string_view key, std::string_view hint) const {
  const Entry* entry = find(key);
  if (entry == nullptr && map_ != nullptr && !misspelt(key)) {
    notes_.error("K02", owner_, fmt::format("{} is missing in {}", quoted(key), keys_.where),
                 {std::string(hint)});
  }
  return entry;
}

/// Whether an unknown key was reported as a likely slip of this one: one slip, one error.
bool MapReader::misspelt(std::string_view key) const {
  const std::vector<std::string> known = words_of(keys_.keys);
  return std::any_of(map_->entries.begin(), map_->entries.end(), [&](const Entry& entry) {
    return !knows(entry.key) && nearest_word(entry.key, known) == key;
  });
}

SourceSpan MapReader::at(std::string_view key) const {
  const Entry* entry = find(key);
  return entry == nullptr ? owner_ : entry->key_span;
}

std::string MapReader::text(std::string_view key) const {
  const Entry* entry = find(key);
  if (entry == nullptr) return {};
  return read_text(entry->value, quoted(key), notes_).value_or("");
}

std::optional<int> MapReader::count(std::string_view key, int low, int high) const {
  const Entry* entry = find(key);
  if (entry == nullptr) return std::nullopt;
  const std::optional<std::string> text = read_text(entry->value, quoted(key), notes_);
  if (!text) return std::nullopt;
  const TextResult<int> number = read_count(*text);
  if (number.problem) {
    add_problem(entry->value, *number.problem, quoted(key), notes_);
    return std::nullopt;
  }
  if (*number.value < low || *number.value > high) {
    notes_.error(
        "R02", entry->value.span,
        fmt::format("{} must be from {} to {}, found {}", quoted(key), low, high, *number.value));
    return std::nullopt;
  }
  return number.value;
}

std::optional<bool> MapReader::flag(std::string_view key) const {
  return choice<bool>(key, {{"yes", true}, {"no", false}});
}

std::string MapReader::date(std::string_view key) const {
  const Entry* entry = find(key);
  if (entry == nullptr) return {};
  const std::optional<std::string> text = read_text(entry->value, quoted(key), notes_);
  if (!text) return {};
  if (is_iso_date(*text)) return *text;
  notes_.error("R03", entry->value.span,
               fmt::format("{} is not a date: {}", quoted(key), detail::quoted(*text)),
               {"write year, month and day as in 2026-06-14"});
  return {};
}

std::vector<std::string> MapReader::texts(std::string_view key) const {
  const Entry* entry = find(key);
  if (entry == nullptr) return {};
  std::vector<std::string> out;
  if (entry->value.kind == NodeKind::list) {
    for (const Node& item : entry->value.items) {
      auto text = read_text(item, fmt::format("each entry of {}", quoted(key)), notes_);
      if (text) out.push_back(std::move(*text));
    }
    return out;
  }
  auto text = read_text(entry->value, quoted(key), notes_);
  if (text) out.push_back(std::move(*text));
  return out;
}

const std::vector<Node>* MapReader::list(std::string_view key) const {
  const Entry* entry = find(key);
  if (entry == nullptr) return nullptr;
  if (entry->value.kind == NodeKind::list) return &entry->value.items;
  report_kind(entry->value, quoted(key), "a list ([first, second], or lines that begin with -)",
              notes_);
  return nullptr;
}

void report_idle_keys(const MapReader& map, std::initializer_list<KeyNeed> needs,
                      const KeyDecider& decider) {
  for (const KeyNeed& need : needs) {
    if (need.met) continue;
    for (const std::string& key : words_of(need.keys)) {
      const Entry* entry = map.find(key);
      if (entry == nullptr) continue;
      map.notes()
          .error("C21", entry->key_span,
                 fmt::format("'{}' says nothing here: it is about {}", key, need.about),
                 {fmt::format("delete '{}', or {}", key, decider.mend)})
          .related.push_back({map.at(decider.key), std::string(decider.says)});
    }
  }
}

}  // namespace hailwright::input
