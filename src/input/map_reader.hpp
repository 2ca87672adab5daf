#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "input/yaml_cursor.hpp"

namespace hailwright::input {

/// The keys that one mapping of a format may have, in the order of its page. A test checks that
/// the page names every one of them.
struct KeyList {
  std::string_view where;  ///< "decide", as messages name the mapping; "the file" for the top
  std::string_view keys;   ///< separated by blanks
};

std::vector<std::string> words_of(std::string_view words);

/// Of a range "more than 0, up to ...", what is less than this share of its end counts as 0 [ours].
inline constexpr double least_share_of_range = 1e-12;

/// Values in SI that a quantity may have, and the same in words. What is typed as an end of it
/// counts as that end, however the conversion of its unit is rounded.
struct Range {
  double low;
  double high;
  std::string_view words;  ///< "more than 0 %, less than 50 %"
  bool low_open = false;
  bool high_open = false;
  [[nodiscard]] bool holds(double si) const;
};

/// A word that a key may have as its value, and what it means.
template <class T>
using Choices = std::initializer_list<std::pair<std::string_view, T>>;

/// A text node as it stands; an error, and nullopt, when it is none. `what` names it: "'title'".
std::optional<std::string> read_text(const Node& node, std::string_view what, Diagnostics& notes);

/// Puts a problem inside a text at its place.
void add_problem(const Node& node, const TextProblem& problem, std::string_view what,
                 Diagnostics& notes);

/// A number with its unit, in its range.
std::optional<Amount> read_amount_of(const Node& node, std::string_view what, Measure measure,
                                     const Range& range, Diagnostics& notes);

/// The number of one of the words; an error that names the nearest word otherwise.
std::optional<std::size_t> read_word(const Node& node, std::string_view what,
                                     const std::vector<std::string>& words, Diagnostics& notes);

/// Reports a word that is none of `known`, with the nearest as hint, or all when there are few.
void report_unknown(std::string_view code, SourceSpan where, std::string message,
                    std::string_view word, const std::vector<std::string>& known,
                    Diagnostics& notes);

/// Reads one mapping: typed values by key, each fault reported at its place, none of them final.
/// Unknown keys are reported at once. Asking for a key that is not in the list is our bug.
class MapReader {
public:
  /// `owner` is the place to point at when a key is missing.
  MapReader(const Node& node, const KeyList& keys, SourceSpan owner, Diagnostics& notes);

  /// Whether there is a mapping to read at all; without one every get gives nothing in silence.
  [[nodiscard]] bool usable() const { return map_ != nullptr; }
  [[nodiscard]] SourceSpan owner() const { return owner_; }
  [[nodiscard]] Diagnostics& notes() const { return notes_; }
  [[nodiscard]] std::string_view where() const { return keys_.where; }

  /// Whether the list of this mapping has the key, given or not.
  [[nodiscard]] bool knows(std::string_view key) const;
  [[nodiscard]] const Entry* find(std::string_view key) const;
  /// Reports a missing key; `hint` says what to write.
  const Entry* require(std::string_view key, std::string_view hint) const;
  /// The place of a key, or of the owner when it is absent.
  [[nodiscard]] SourceSpan at(std::string_view key) const;

  /// Empty when absent.
  [[nodiscard]] std::string text(std::string_view key) const;
  [[nodiscard]] std::optional<int> count(std::string_view key, int low, int high) const;
  [[nodiscard]] std::optional<bool> flag(std::string_view key) const;
  /// An ISO date, 2026-06-14; empty when absent or faulty.
  [[nodiscard]] std::string date(std::string_view key) const;
  /// One text, or a list of texts.
  [[nodiscard]] std::vector<std::string> texts(std::string_view key) const;
  /// A list; one error and nothing when it is none. A broken list is empty.
  [[nodiscard]] const std::vector<Node>* list(std::string_view key) const;

  template <Measured Q>
  [[nodiscard]] std::optional<Q> quantity(std::string_view key, const Range& range) const {
    const Entry* entry = find(key);
    if (entry == nullptr) return std::nullopt;
    const auto amount =
        read_amount_of(entry->value, quoted(key), MeasureOf<Q>::value, range, notes_);
    if (!amount) return std::nullopt;
    return quantity_from_si<Q>(amount->si);
  }

  template <class T>
  [[nodiscard]] std::optional<T> choice(std::string_view key, Choices<T> choices) const {
    const Entry* entry = find(key);
    if (entry == nullptr) return std::nullopt;
    std::vector<std::string> words;
    for (const auto& [word, value] : choices)
      words.emplace_back(word);
    const auto index = read_word(entry->value, quoted(key), words, notes_);
    if (!index) return std::nullopt;
    return (choices.begin() + *index)->second;
  }

private:
  static std::string quoted(std::string_view key);
  void report_unknown_keys() const;
  [[nodiscard]] bool misspelt(std::string_view key) const;

  const Node* map_ = nullptr;
  KeyList keys_;
  SourceSpan owner_;
  Diagnostics& notes_;
};

/// Keys that tell something only in some cases, and whether this is one of them.
struct KeyNeed {
  std::string_view keys;  ///< separated by blanks
  bool met = false;
  std::string_view about;  ///< "a video": what there must be
};

/// What decides whether they tell something: its key, what it says, and how to mend it.
struct KeyDecider {
  std::string_view key, says, mend;
};

/// An error for every key that is given and tells nothing.
void report_idle_keys(const MapReader& map, std::initializer_list<KeyNeed> needs,
                      const KeyDecider& decider);

/// Whether a text is a day of the calendar written as 2026-06-14.
bool is_iso_date(std::string_view text);

}  // namespace hailwright::input
