#pragma once

#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/citation.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/safety_questions.hpp"

// Stresses other than hail that a home can do. Each is one file of src/model/stresses/ and a line
// in src/model/stress.cpp: keys, published levels, sums, questions, cautions.

namespace hailwright {

/// A key of a stress in a protocol (what is to be done) or in a record (what was done).
struct StressKey {
  std::string_view key;  ///< "pressure"
  Measure measure = Measure::length;
  double low = 0.0, high = 0.0;  ///< in SI, both ends allowed
  std::string_view range = {};   ///< the same in words: "from 100 Pa to 10000 Pa"
  std::string_view asks;         ///< what it is, in a line
  std::string_view example;      ///< "2400 Pa"
  bool required = false;
  bool count = false;  ///< a whole number without a unit; `measure` means nothing
  std::vector<std::string_view> words = {};  ///< one of these instead of an amount
};

/// What was typed for the keys of one entry.
struct StressValue {
  double si = 0.0;       ///< amount in SI, or the count, or the index of the word
  double step_si = 0.0;  ///< one unit of the last decimal typed
  std::string text;      ///< as typed
  SourceSpan origin;
};
using StressValues = std::map<std::string, StressValue>;

/// A level that somebody published, as far as it was printed; what it leaves open is typed.
struct StressLevel {
  std::string_view name;                      ///< "IEC 61215 2400 Pa"
  std::map<std::string_view, double> values;  ///< by key of the plan, in SI
  std::string_view source;                    ///< id of the citation
};

/// A question that is to be answered before anything about doing it is printed.
struct StressQuestion {
  SafetyQuestion asked;  ///< its `block` is the name of the kind
  /// Whether an answer as written is enough; the sentence that says what would be otherwise.
  std::function<std::optional<std::string>(const std::string& answer)> missing;
  std::string_view caution;  ///< id of the caution behind it
  /// The answer for which the stress is refused, whatever else is answered; may be empty.
  std::string_view refused_for = {};
};

/// A caution of a stress, in the words that are printed.
struct StressCaution {
  std::string_view id, hazard, text, trigger, source, read_at;
  ReadStatus status = ReadStatus::ours;
  std::string_view status_note = {};  ///< what was read and what was not; may be empty
  bool people = false;                ///< concerns people first; otherwise the panel
};

/// One quantity of what was done, held against the plan.
struct StressReached {
  std::string label;     ///< "pressure"
  std::string unit;      ///< "Pa"
  double planned = 0.0;  ///< in that unit
  Estimate<Ratio> done;  ///< a bare number in that unit, with its uncertainty
  int decimals = 0;
  /// Which side is the weak one: a pressure is weak when low, a bending radius when large.
  bool weak_when_low = true;
  /// The part of the planned value by which it may be weaker and still count.
  double tolerance = 0.0;
  /// What its uncertainty rests on that nobody typed: "scale to 2 % [ours]"; may be empty.
  std::string taken;
  bool yes_no = false;  ///< was it as planned: 1 or 0
};

/// What `plan` says of it: a label and a line.
struct StressAdvice {
  std::string label, text;
};

/// A kind of stress.
struct StressKind {
  std::string_view word;   ///< "static load", as it is written
  std::string_view about;  ///< one sentence: what is done to the panel
  std::vector<StressKey> planned, done;
  std::vector<StressLevel> levels;
  std::vector<Citation> sources;
  std::vector<StressQuestion> questions;
  std::vector<StressCaution> cautions;
  /// Nothing where what was done cannot be told from what was typed and from the panel's file.
  std::function<std::vector<StressReached>(const StressValues& planned, const StressValues& done,
                                           const Panel& panel)>
      reached;
  /// What to make ready, from the plan and the panel: masses, lengths, times.
  std::function<std::vector<StressAdvice>(const StressValues& planned, const Panel& panel)> advice;
  /// In what it is not the published test, in words that follow "not equivalent to ...: ".
  std::string_view unlike;
  /// Why this is not for this panel or not to be done so: a sentence. Nothing where it may be;
  /// no function where it always may.
  std::function<std::optional<std::string>(const StressValues& planned, const Panel& panel)>
      unsuited;
  /// Why power read after what was done says nothing: a sentence. Nothing where it counts; no
  /// function where it always does.
  std::function<std::optional<std::string>(const StressValues& done)> power_spoilt;
  /// Open-circuit voltage of the cold panel [V] from which the stress is refused.
  double refused_from_V = 120.0;
};

/// All kinds, in the order of the format page.
std::span<const StressKind> stress_kinds();
/// nullptr when there is none of this word.
const StressKind* find_stress_kind(std::string_view word);
/// "static load; bending; ...": for messages.
std::string stress_kind_words();
/// nullptr when the kind has no level of this name.
const StressLevel* find_stress_level(const StressKind& kind, std::string_view name);
/// The sources of all kinds, kind after kind.
std::span<const Citation> stress_sources();
/// nullptr when the kind asks nothing of this key.
const StressQuestion* find_stress_question(const StressKind& kind, std::string_view key);

/// A stress as the protocol plans it.
struct StressPlan {
  SourceSpan origin;
  std::string name;  ///< unique among series and stresses; "static load" unless given
  const StressKind* kind = nullptr;
  const StressLevel* level = nullptr;          ///< a published one that the plan names
  StressValues values;                         ///< those of the level, then those typed
  std::map<std::string, SafetyAnswer> safety;  ///< answers by key
};

/// What was done of it.
struct StressDone {
  SourceSpan origin;
  std::size_t stress = 0;   ///< index into Protocol::stresses
  std::string date;         ///< ISO 8601; empty: the record's day
  bool after_hail = false;  ///< done after the shots of the same record
  StressValues values;
  std::string note;
};

}  // namespace hailwright
