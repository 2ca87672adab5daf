#pragma once

#include <span>
#include <string>
#include <string_view>

#include "safety/gate_case.hpp"

namespace hailwright::gate {

/// When one question is asked, and what is enough. One rule a question, in their order.
struct Rule {
  std::string_view block, key;
  /// Ids of the cautions that it answers, separated by blanks, the most pressing first; a finding
  /// names the first that the plan triggers.
  std::string_view hazards;
  std::string_view when;  ///< for docs/safety.md: "every launch"
  bool (*asked)(const Case&);
  /// The words that are enough, separated by `|`; empty where `enough` decides.
  std::string_view good;
  std::string_view page = {};  ///< for docs/safety.md, where the words alone do not say it
  /// Where set, decides whether an answer is enough, in place of `good`.
  bool (*enough)(const Case&, const std::string& answer) = nullptr;
  /// Where set, says what is wanted of this plan, in place of the words of `good`.
  std::string (*wanted)(const Case&) = nullptr;
};

std::span<const Rule> rules();

/// What is enough, in words, whatever the plan.
std::string enough_in_words(const Rule& rule);
bool is_enough(const Rule& rule, const Case& c, const std::string& answer);
std::string wanted_in_words(const Rule& rule, const Case& c);

/// A caution that no question answers, and why.
struct Unasked {
  std::string_view id;
  std::string_view reason;
};
std::span<const Unasked> unasked_cautions();

}  // namespace hailwright::gate
